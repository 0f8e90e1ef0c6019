// What training and benches look at inside the package.
export { Agglomeration } from '../../../src/gaps/agglomerate.ts';
export { findBorders } from '../../../src/gaps/borders.ts';
export { BridgePixels } from '../../../src/gaps/bridge-pixels.ts';
export { EVIDENCE, gatherEvidence } from '../../../src/gaps/evidence.ts';
export { mapFaces } from '../../../src/gaps/face-map.ts';
export { groupRivals } from '../../../src/gaps/rivals.ts';
export { SEPARATION } from '../../../src/gaps/separation.ts';
export { paperBetween } from '../../../src/gaps/span-gap.ts';
export { suggestBridges } from '../../../src/gaps/suggest.ts';
export { oddsOf, unpackTrees } from '../../../src/gaps/trees.ts';
export { packMask } from '../../../src/raster/pack.ts';
export { linePixels } from '../../../src/runs/line.ts';
export { findEnds } from '../../../src/strokes/stroke-ends.ts';
export { widthAlong } from '../../../src/strokes/stroke-width.ts';
export { thinDense } from '../../../src/strokes/thin.ts';
