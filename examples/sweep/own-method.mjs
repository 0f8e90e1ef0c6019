// A method of one's own for the bench of gap closing: the passage tree of the package at several gaps.
import { passageTree, raster } from 'underink';

export const passages = {
  settings: { maxGap: [4, 8, 12, 16, 24] },
  study: ({ ink, width, height }) => passageTree(raster(ink, [width, height])),
  run: (tree, { maxGap }) => tree.partition(maxGap).data,
};
