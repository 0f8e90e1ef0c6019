import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { hardenEdges } from '../../src/fringe/harden-edges.ts';
import { mergeSmears } from '../../src/fringe/merge-smears.ts';
import { raster } from '../../src/raster/raster.ts';

const BLACK = 0xff000000;
const TINTED = 0xff000011;
const WHITE = 0xffffffff;

/** Codes of a picture of rows: 2 is ink, 3 a tint, 4 paper. */
const codesOf = (rows: string): { codes: Uint16Array; width: number; height: number } => {
  const lines = rows.trim().split(/\s+/);
  return {
    codes: Uint16Array.from(lines.join(''), Number),
    width: lines[0]!.length,
    height: lines.length,
  };
};

describe('mergeSmears', () => {
  const colors = Uint32Array.from([0, 0, BLACK, TINTED, WHITE]);

  it('gives a tint along an edge to the ink that it lies on', () => {
    const { codes, width, height } = codesOf('2222344 2222344 2222344 2222344');
    const [merged] = mergeSmears(codes, colors, width, height);
    expect([...codes.subarray(0, width)]).toEqual([2, 2, 2, 2, 2, 4, 4]);
    expect(merged).toMatchObject({ color: TINTED, into: BLACK, pixels: 4 });
  });

  it('leaves an area of the same color, and a line of a color that is far', () => {
    const area = codesOf('22223333 22223333 22223333 22223333 22223333 22223333 22223333');
    expect(
      mergeSmears(area.codes, Uint32Array.from([0, 0, WHITE, TINTED]), area.width, area.height),
    ).toEqual([]);
    const line = codesOf('2222344 2222344 2222344');
    const far = Uint32Array.from([0, 0, BLACK, 0xff0000ff, WHITE]);
    expect(mergeSmears(line.codes, far, line.width, line.height)).toEqual([]);
  });

  it('finds the colors of a drawing after JPEG of quality 75, 4:2:0', async () => {
    const [w, h] = [96, 64];
    const rgb = Uint8Array.from({ length: 3 * w * h }, (_, k) => {
      const i = Math.floor(k / 3);
      const d = Math.hypot((i % w) - 48, Math.floor(i / w) - 32);
      return (d < 20 ? [252, 234, 43] : d < 26 ? [0, 0, 0] : [255, 255, 255])[k % 3]!;
    });
    const jpeg = sharp(rgb, { raw: { width: w, height: h, channels: 3 } }).jpeg({ quality: 75 });
    const data = new Uint8Array(
      await sharp(await jpeg.toBuffer())
        .raw()
        .toBuffer(),
    );
    const { palette, gathered } = hardenEdges(raster(data, [w, h, 3]));
    expect(palette).toHaveLength(4);
    // Only what is near is merged, and told.
    for (const { difference } of gathered) expect(difference).toBeLessThan(10);
  });
});
