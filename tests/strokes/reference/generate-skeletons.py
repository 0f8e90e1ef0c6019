"""Writes skeletons.json: topology and skeleton length of drawings, by SciPy and scikit-image.

    node tests/ink/reference/write-drawings.mjs FOLDER
    /usr/bin/python3 tests/ink/reference/generate-skeletons.py FOLDER
    npx biome format --write tests/ink/reference

The drawings are line groups of openmoji 17 (CC BY-SA 4.0), npm package `openmoji`, drawn by
`@resvg/resvg-js`; of each, only what is counted here is kept. Ink is 8-connected, paper 4-connected;
`crc32` is that of the mask's bytes 0 and 1, row by row.

`zhang` and `lee` are the two methods of `skeletonize`, the first its default, as numbers of orthogonal and
of diagonal steps between neighboring pixels of the skeleton. A diagonal counts only where neither of
the two pixels beside it is in the skeleton, since the way round that corner is counted already. A
skeleton's length is the orthogonal steps plus the square root of 2 times the diagonal ones.
"""

import json
import platform
import sys
import zlib
from pathlib import Path

import numpy
import scipy
import skimage
from scipy.ndimage import label
from skimage.io import imread
from skimage.morphology import skeletonize

EIGHT = numpy.ones((3, 3))


def steps(skeleton):
    s = numpy.pad(skeleton > 0, 1)
    falling = s[1:, 1:] & s[:-1, :-1] & ~s[1:, :-1] & ~s[:-1, 1:]
    rising = s[1:, :-1] & s[:-1, 1:] & ~s[1:, 1:] & ~s[:-1, :-1]
    orthogonal = (s[:, 1:] & s[:, :-1]).sum() + (s[1:] & s[:-1]).sum()
    return [int(orthogonal), int(falling.sum() + rising.sum())]


drawings = []
for path in sorted(Path(sys.argv[1]).glob("*.png")):
    ink = imread(path) > 0
    drawings.append(
        {
            "name": path.stem,
            "crc32": zlib.crc32(ink.astype(numpy.uint8).tobytes()),
            "components": label(ink, EIGHT)[1],
            # All paper but what is around the drawing.
            "holes": label(numpy.pad(~ink, 1, constant_values=True))[1] - 1,
            "zhang": steps(skeletonize(ink)),
            "lee": steps(skeletonize(ink, method="lee")),
        }
    )

result = {
    "generator": "generate-skeletons.py",
    "versions": {
        "scikit-image": skimage.__version__,
        "scipy": scipy.__version__,
        "numpy": numpy.__version__,
        "python": platform.python_version(),
    },
    "drawings": drawings,
}
Path(__file__).with_name("skeletons.json").write_text(json.dumps(result))
