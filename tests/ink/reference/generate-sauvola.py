"""Writes sauvola.json: masks of real scans as scikit-image's threshold_sauvola gives them.

Run with Debian's python3-skimage, whose sample pictures `page`, `text` and `coins` are cut to the
part named below (left, top, width, height); the tones of the part are kept beside the mask, both
compressed by zlib in base64. Ink is where the tone is not above the threshold, with scikit-image's
default range of 127.5. Afterwards `npx biome format --write tests/ink/reference` lays the file out.
"""

import base64
import json
import platform
import zlib
from pathlib import Path

import numpy
import skimage
from skimage import data
from skimage.filters import threshold_sauvola


def pack(values):
    return base64.b64encode(zlib.compress(values.astype(numpy.uint8).tobytes(), 9)).decode()


parts = {
    "page": (data.page(), (0, 0, 131, 97)),
    "text": (data.text(), (100, 20, 127, 89)),
    "coins": (data.coins(), (200, 150, 101, 103)),
}
pictures = []
for name, (picture, (left, top, width, height)) in parts.items():
    tones = picture[top : top + height, left : left + width]
    masks = [
        {"window": window, "k": k, "mask": pack(tones <= threshold_sauvola(tones, window, k))}
        for window, k in [(3, 0.2), (15, 0.2), (25, 0.5), (51, 0.34), (95, 0.8)]
    ]
    pictures.append(
        {"name": name, "part": [left, top, width, height], "tones": pack(tones), "masks": masks}
    )

result = {
    "generator": "generate-sauvola.py",
    "versions": {
        "scikit-image": skimage.__version__,
        "numpy": numpy.__version__,
        "python": platform.python_version(),
    },
    "pictures": pictures,
}
Path(__file__).with_name("sauvola.json").write_text(json.dumps(result))
