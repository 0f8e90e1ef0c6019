import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { variationOfInformation } from '../../src/measure/information.ts';
import { adjustedRandIndex } from '../../src/measure/rand-index.ts';
import { regionScores } from '../../src/measure/region-scores.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Labels } from '../../src/raster/types.ts';
import { growUnderInk } from '../../src/regions/grow.ts';
import { measureRegions } from '../../src/regions/measure.ts';

/** By `reference/generate-regions.py`; see the README beside it. */
interface Reference {
  readonly pictures: readonly {
    readonly size: readonly [number, number];
    readonly labels: readonly number[];
    readonly regionprops: readonly {
      readonly label: number;
      readonly area: number;
      readonly bounds: readonly number[];
      readonly centroid: readonly [number, number];
      readonly euler: number;
      readonly crofton: number;
    }[];
    readonly expand_labels: {
      readonly labels: readonly number[];
      readonly ties: readonly number[];
    };
  }[];
  readonly pairs: readonly {
    readonly truth: readonly number[];
    readonly found: readonly number[];
    readonly variation_of_information: readonly [number, number];
    readonly adapted_rand_error: readonly [number, number, number];
    readonly region_scores: readonly [number, number, number];
  }[];
}

const file = new URL('./reference/regions.json', import.meta.url);
const { pictures, pairs } = JSON.parse(readFileSync(file, 'utf8')) as Reference;
const labelsOf = (ids: readonly number[], size: readonly number[]): Labels =>
  raster(Int32Array.from(ids), size);

describe.each(pictures)('scikit-image on a picture of $size', (picture) => {
  const labels = labelsOf(picture.labels, picture.size);

  it('measures the same: regionprops, euler_number, perimeter_crofton', () => {
    const { area, bounds, centroid, perimeter, eulerNumber } = measureRegions(labels);
    expect(picture.regionprops.length).toBeGreaterThan(1);
    for (const region of picture.regionprops) {
      const { label } = region;
      expect(area[label]).toBe(region.area);
      expect([...bounds.subarray(4 * label, 4 * label + 4)]).toEqual(region.bounds);
      expect(centroid[2 * label]).toBeCloseTo(region.centroid[0] + 0.5, 12);
      expect(centroid[2 * label + 1]).toBeCloseTo(region.centroid[1] + 0.5, 12);
      expect(eulerNumber[label]).toBe(region.euler);
      expect((Math.PI / 4) * perimeter[label]!).toBeCloseTo(region.crofton, 9);
    }
  });

  it('grows to the same labels where one is nearest: expand_labels', () => {
    const ink = Uint8Array.from(labels.data, (id) => (id === 0 ? 1 : 0));
    const grown = growUnderInk(labels, raster(ink, picture.size));
    const wanted = picture.expand_labels;
    const decided = wanted.ties.filter((tie) => tie === 0).length;
    expect(decided).toBeGreaterThan(wanted.ties.length / 2);
    grown.data.forEach((id, i) => {
      if (wanted.ties[i] === 0) expect(id).toBe(wanted.labels[i]);
    });
  });
});

describe.each(pairs)('scikit-image on two partitions', (pair) => {
  const truth = labelsOf(pair.truth, [24, 18]);
  const found = labelsOf(pair.found, [24, 18]);

  it('gives the same variation of information', () => {
    const { split, merge } = variationOfInformation(truth, found);
    expect(split).toBeCloseTo(pair.variation_of_information[0], 12);
    expect(merge).toBeCloseTo(pair.variation_of_information[1], 12);
  });

  it('counts the same regions as found, by contingency_table and linear_sum_assignment', () => {
    const { precision, recall, f1 } = regionScores(truth, found, { iou: 0.55 });
    [precision, recall, f1].forEach((score, k) => {
      expect(score).toBeCloseTo(pair.region_scores[k]!, 12);
    });
  });

  it('gives precision and recall from which the adjusted Rand index follows', () => {
    const [, precision, recall] = pair.adapted_rand_error;
    const areas = new Map<number, number>();
    for (const id of pair.truth) if (id !== 0) areas.set(id, (areas.get(id) ?? 0) + 1);
    const pairsOf = (n: number) => (n * (n - 1)) / 2;
    let inTruth = 0;
    let pixels = 0;
    for (const n of areas.values()) {
      inTruth += pairsOf(n);
      pixels += n;
    }
    // Precision is the share of the pairs of the truth, recall of those found, that lie in both.
    const together = precision * inTruth;
    const inFound = together / recall;
    const chance = (inTruth * inFound) / pairsOf(pixels);
    const index = (together - chance) / ((inTruth + inFound) / 2 - chance);
    expect(adjustedRandIndex(truth, found)).toBeCloseTo(index, 12);
  });
});
