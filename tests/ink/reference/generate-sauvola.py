"""Writes sauvola.json: masks of real pictures as scikit-image's threshold_sauvola gives them.

Run with Debian's python3-skimage. The pictures are its samples `page`, `text` and `coins`, whole, whose
files lie beside this one; the CRC-32 of their tones, row by row, is kept. Ink is where the tone is not
above the threshold, with scikit-image's default range of 127.5. Masks have 8 pixels a byte, the first
the highest bit, without padding between rows, compressed by zlib in base64. Afterwards
`npx biome format --write tests/ink/reference` lays the file out.

At its borders scikit-image mirrors the picture without repeating the border pixel.
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


def pack(mask):
    return base64.b64encode(zlib.compress(numpy.packbits(mask).tobytes(), 9)).decode()


def record(tones, window, k):
    mask = tones <= threshold_sauvola(tones, window, k)
    return {"window": window, "k": k, "ink": int(mask.sum()), "mask": pack(mask)}


pictures = [
    {
        "name": name,
        "size": [tones.shape[1], tones.shape[0]],
        "crc32": zlib.crc32(tones.tobytes()),
        "masks": [
            record(tones, window, k)
            for window, k in [(3, 0.2), (15, 0.2), (25, 0.5), (51, 0.34), (95, 0.8), (401, 0.5)]
        ],
    }
    for name, tones in [("page", data.page()), ("text", data.text()), ("coins", data.coins())]
]

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
