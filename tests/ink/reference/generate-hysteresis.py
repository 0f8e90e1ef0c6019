"""Writes hysteresis.json: masks of real pictures as scikit-image's apply_hysteresis_threshold gives them.

Run with Debian's python3-skimage. The pictures are its samples `page`, `text` and `coins`, whole, whose
files lie beside this one; the CRC-32 of their tones, row by row, is kept. The coverage is 255 less the
tone, and ink is where it is above `weak` and connected, corners included, to where it is above `level`.
Masks have 8 pixels a byte, the first the highest bit, without padding between rows, compressed by zlib
in base64. Afterwards `npx biome format --write tests/ink/reference` lays the file out.

scikit-image labels the parts above the low threshold with SciPy, where pixels that share an edge are
connected; corners are not. Beside its mask, so, is that of the same steps with corners, by SciPy alone.
"""

import base64
import json
import platform
import zlib
from pathlib import Path

import numpy
import scipy
import skimage
from scipy import ndimage
from skimage import data
from skimage.filters import apply_hysteresis_threshold


def pack(mask):
    return base64.b64encode(zlib.compress(numpy.packbits(mask).tobytes(), 9)).decode()


def with_corners(coverage, weak, level):
    labels, count = ndimage.label(coverage > weak, structure=numpy.ones((3, 3)))
    strong = ndimage.maximum(coverage, labels, numpy.arange(count + 1)) > level
    strong[0] = False
    return strong[labels]


def record(coverage, weak, level):
    edges = apply_hysteresis_threshold(coverage, weak, level)
    corners = with_corners(coverage, weak, level)
    return {
        "weak": weak,
        "level": level,
        "edgesInk": int(edges.sum()),
        "edges": pack(edges),
        "ink": int(corners.sum()),
        "mask": pack(corners),
    }


pictures = [
    {
        "name": name,
        "size": [tones.shape[1], tones.shape[0]],
        "crc32": zlib.crc32(tones.tobytes()),
        "masks": [
            record(255 - tones, weak, level)
            for weak, level in [(20, 200), (60, 120), (100, 100), (127, 180), (150, 220)]
        ],
    }
    for name, tones in [("page", data.page()), ("text", data.text()), ("coins", data.coins())]
]

result = {
    "generator": "generate-hysteresis.py",
    "versions": {
        "scikit-image": skimage.__version__,
        "scipy": scipy.__version__,
        "numpy": numpy.__version__,
        "python": platform.python_version(),
    },
    "pictures": pictures,
}
Path(__file__).with_name("hysteresis.json").write_text(json.dumps(result))
