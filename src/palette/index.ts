export { type ApplyVariantsOptions, applyVariants, type SheetVariant } from './apply-variants.ts';
export { type CompactPaletteOptions, compactPalette } from './compact-palette.ts';
export { diffFlats, type FlatsDiff, type RegionChange, type SwatchChange } from './diff-flats.ts';
export type { CheckException } from './exceptions.ts';
export { type FindLookalikesOptions, findLookalikes, type Lookalike } from './find-lookalikes.ts';
export { indexFlats } from './index-flats.ts';
export { mergeSwatches } from './merge-swatches.ts';
export { type PaintFlatsOptions, paintFlats } from './paint-flats.ts';
export { type PaletteUse, paletteUse, type SwatchUse } from './palette-use.ts';
export {
  type ReadVariantsOptions,
  readVariants,
  type VariantRow,
  type VariantTable,
} from './read-variants.ts';
export { recolor } from './recolor.ts';
export { type RemapFlatsOptions, remapFlats } from './remap-flats.ts';
export { renameSwatch } from './rename-swatch.ts';
export { selectSwatch } from './select-swatch.ts';
export type { NamedFlats } from './sheets.ts';
export { type SuggestColorsOptions, suggestColors } from './suggest-colors.ts';
export { type SwatchSheetOptions, swatchSheet } from './swatch-sheet.ts';
export type { Flats, FlatsLike, IndexRaster, Swatch } from './types.ts';
export { type WriteVariantsOptions, writeVariants } from './write-variants.ts';
