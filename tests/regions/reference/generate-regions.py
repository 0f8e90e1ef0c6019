"""Writes regions.json: what scikit-image says of small label pictures and of pairs of them.

Run with Debian's python3-skimage; the versions used are written into the file.

- `regionprops`: by label, area, bounds, centroid, Euler number. scikit-image counts a centroid in pixel
  indices (ours is half a pixel more), bounds as (row, column, row, column), and the Euler number of
  `connectivity=1`, 4 neighbors, by `euler_number`. `perimeter_crofton` in 2 directions is π/4 of the
  pixel edges round the region; its other perimeters are estimates of a smooth outline.
- `expand_labels` by a distance beyond the picture: every pixel gets the nearest label. On ties it keeps
  whichever feature SciPy's transform finds; `ties` tells pixels where two labels are equally near.
- `contingency_table` counts the pixels that a true and a found label share, label 0 of the truth ignored;
  SciPy's `linear_sum_assignment` pairs the labels so that the sum of their intersections over unions is
  greatest, and those of at least 0.55 count as found.
- `variation_of_information` gives H(found | truth) then H(truth | found), label 0 of the truth ignored;
  `adapted_rand_error` gives its precision and recall, by pairs of pixels with themselves.

Afterwards `npx biome format --write tests/regions/reference` lays the file out.
"""

import json
import platform
from pathlib import Path

import numpy
import scipy
import skimage
from scipy.ndimage import distance_transform_edt
from scipy.optimize import linear_sum_assignment
from skimage.measure import euler_number, perimeter_crofton, regionprops
from skimage.metrics import adapted_rand_error, contingency_table, variation_of_information
from skimage.segmentation import expand_labels

random = numpy.random.default_rng(17)


def blocks(width, height, most, side):
    coarse = random.integers(0, most + 1, ((height - 1) // side + 1, (width - 1) // side + 1))
    return numpy.kron(coarse, numpy.ones((side, side), int))[:height, :width].astype(numpy.int32)


def measured(labels):
    regions = []
    for region in regionprops(labels):
        y0, x0, y1, x1 = region.bbox
        y, x = region.centroid
        regions.append(
            {
                "label": int(region.label),
                "area": int(region.area),
                "bounds": [x0, y0, x1, y1],
                "centroid": [x, y],
                "euler": int(euler_number(labels == region.label, connectivity=1)),
                "crofton": float(perimeter_crofton(labels == region.label, directions=2)),
            }
        )
    return regions


def grown(labels):
    height, width = labels.shape
    ids = [i for i in numpy.unique(labels) if i > 0]
    near = [distance_transform_edt(labels != i) for i in ids]
    least = numpy.min(near, axis=0)
    ties = numpy.sum([d == least for d in near], axis=0) > 1
    result = expand_labels(labels, distance=width + height)
    return {"labels": result.ravel().tolist(), "ties": ties.astype(int).ravel().tolist()}


def picture(width, height, labels):
    return {
        "size": [width, height],
        "labels": labels.ravel().tolist(),
        "regionprops": measured(labels),
        "expand_labels": grown(labels),
    }


def scores(truth, found):
    shared = contingency_table(truth, found, ignore_labels=[0]).toarray()
    joint = shared.sum(axis=1, keepdims=True) + shared.sum(axis=0, keepdims=True) - shared
    iou = numpy.where(joint > 0, shared / numpy.maximum(joint, 1), 0)[1:, 1:]
    pairs = int(numpy.sum(iou[linear_sum_assignment(-iou)] >= 0.55))
    trues = int(numpy.sum(shared[1:].sum(axis=1) > 0))
    founds = int(numpy.sum(shared[:, 1:].sum(axis=0) > 0))
    return [pairs / founds, pairs / trues, 2 * pairs / (trues + founds)]


def pair(truth, found):
    # Of the found labels, 0 is one more part.
    error, precision, recall = adapted_rand_error(truth, found, ignore_labels=[0])
    split, merge = variation_of_information(truth, found, ignore_labels=[0])
    return {
        "truth": truth.ravel().tolist(),
        "found": found.ravel().tolist(),
        "variation_of_information": [float(split), float(merge)],
        "adapted_rand_error": [float(error), float(precision), float(recall)],
        "region_scores": scores(truth, found),
    }


pictures = []
for width, height, most, side in [(7, 5, 2, 1), (16, 12, 4, 2), (33, 20, 6, 3), (40, 1, 3, 2)]:
    pictures.append(picture(width, height, blocks(width, height, most, side)))

pairs = []
for most, other, side in [(2, 3, 1), (4, 4, 2), (6, 3, 3), (9, 12, 2)]:
    truth = blocks(24, 18, most, side)
    found = blocks(24, 18, other, side + 1)
    pairs.append(pair(truth, numpy.where(random.random(truth.shape) < 0.6, truth + 1, found)))

versions = {
    "python": platform.python_version(),
    "numpy": numpy.__version__,
    "scipy": scipy.__version__,
    "scikit-image": skimage.__version__,
}
content = {"versions": versions, "pictures": pictures, "pairs": pairs}
Path(__file__).with_name("regions.json").write_text(json.dumps(content) + "\n")
