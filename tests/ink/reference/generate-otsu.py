"""Writes otsu.json: histograms of 256 values with the levels that scikit-image and OpenCV find.

Run with Debian's python3-skimage and python3-opencv; the versions used are written into the file.
Each histogram has

- `scikit-image`: `threshold_otsu` of the histogram, and of the picture where there is one,
- `opencv`: `threshold` with `THRESH_OTSU` of a picture with that histogram,
- `exact`: all levels with the largest variance between the classes, in rational arithmetic.

Values that do not occur between the classes give ties: of n equal levels n are exact.
Afterwards `npx biome format --write tests/ink/reference` lays the file out.
"""

import json
import platform
from fractions import Fraction
from pathlib import Path

import cv2
import numpy
import skimage
from skimage import data
from skimage.filters import threshold_otsu

random = numpy.random.default_rng(1979)
values = numpy.arange(256)


def bell(center, width, count):
    weights = numpy.exp(-(((values - center) / width) ** 2))
    return numpy.round(count * weights / weights.sum()).astype(int)


def counts(**at):
    histogram = numpy.zeros(256, int)
    for value, count in at.items():
        histogram[int(value[1:])] = count
    return histogram


def noise(low, high, most):
    histogram = numpy.zeros(256, int)
    histogram[low:high] = random.integers(0, most, high - low)
    return histogram


histograms = {
    "two values": counts(v10=5, v200=3),
    "ends only": counts(v0=1, v255=1),
    "clean page": counts(v0=95000, v255=5000),
    "neighbors": counts(v17=4, v18=9),
    "three values": counts(v0=10, v100=10, v255=10),
    "three values, even steps": counts(v0=7, v100=7, v200=7),
    "four values": counts(v3=100, v60=10, v190=20, v250=40),
    "flat": numpy.ones(256, int),
    "ramp up": values.copy(),
    "ramp down": values[::-1].copy(),
    "comb": numpy.where(values % 16 == 0, 9, 0),
    "antialiased page": counts(v0=90000, v255=4000) + noise(1, 255, 12),
    "scan": bell(12, 9, 90000) + bell(210, 20, 8000),
    "scan, faint ink": bell(25, 12, 90000) + bell(110, 20, 4000),
    "scan, yellowed": bell(60, 15, 90000) + bell(235, 8, 7000),
    "pencil under ink": bell(8, 5, 80000) + bell(70, 14, 9000) + bell(230, 12, 9000),
    "pencil alone": bell(6, 4, 95000) + bell(90, 30, 5000),
    "mostly ink": bell(10, 6, 5000) + bell(245, 6, 95000),
    "wash": bell(20, 20, 30000) + bell(120, 40, 30000) + bell(230, 20, 30000),
    "one bell": bell(128, 30, 50000),
    "dark half": noise(128, 256, 500),
    "light half": noise(0, 128, 500),
    "middle": noise(100, 140, 500),
    "page of 100 megapixels": counts(v0=92_000_000, v255=6_500_000) + noise(1, 255, 12_000),
}
for i in range(8):
    histograms[f"noise {i + 1}"] = noise(0, 256, 1000)
for i in range(8):
    low, high = sorted(random.integers(0, 256, 2))
    ink = int(random.integers(100, 20000))
    histograms[f"bells {i + 1}"] = bell(low, 5 + 3 * i, 50000) + bell(high, 4 + 4 * i, ink)


def exact_levels(histogram):
    total = sum(histogram)
    moment = sum(v * n for v, n in enumerate(histogram))
    below = below_moment = 0
    best = Fraction(-1)
    levels = []
    for v in range(255):
        below += histogram[v]
        below_moment += v * histogram[v]
        above = total - below
        if below == 0 or above == 0:
            continue
        lead = Fraction(below_moment, below) - Fraction(moment - below_moment, above)
        variance = below * above * lead * lead
        if variance > best:
            best, levels = variance, []
        if variance == best:
            levels.append(v)
    return levels


def opencv_level(picture):
    return int(cv2.threshold(picture, 0, 255, cv2.THRESH_BINARY | cv2.THRESH_OTSU)[0])


def record(name, histogram, picture):
    level = int(threshold_otsu(hist=(histogram, values)))
    assert level == threshold_otsu(picture), name
    return {
        "name": name,
        # Value and count of every value that occurs.
        "values": [int(v) for v in numpy.flatnonzero(histogram)],
        "counts": [int(histogram[v]) for v in numpy.flatnonzero(histogram)],
        "scikit-image": level,
        "opencv": opencv_level(picture),
        "exact": exact_levels([int(n) for n in histogram]),
    }


records = []
for name, histogram in histograms.items():
    spread = numpy.repeat(values.astype(numpy.uint8), histogram).reshape(1, -1)
    records.append(record(name, histogram, spread))

# Sample pictures that come with scikit-image, of 8-bit gray.
for name in [
    "page", "text", "coins", "camera", "clock", "moon", "cell", "brick", "grass", "gravel",
    "microaneurysms", "checkerboard",
]:  # fmt: skip
    whole = getattr(data, name)()
    height, width = whole.shape
    middle = whole[height // 3 : height // 3 * 2, width // 4 : width // 4 * 3]
    versions = {
        name: whole,
        f"{name}, inverted": 255 - whole,
        f"{name}, blurred": cv2.GaussianBlur(whole, (0, 0), 1.5),
        f"{name}, the middle": numpy.ascontiguousarray(middle),
    }
    for version, picture in versions.items():
        records.append(record(version, numpy.bincount(picture.ravel(), minlength=256), picture))

result = {
    "generator": "generate-otsu.py",
    "versions": {
        "scikit-image": skimage.__version__,
        "opencv": cv2.__version__,
        "numpy": numpy.__version__,
        "python": platform.python_version(),
    },
    "histograms": records,
}

Path(__file__).with_name("otsu.json").write_text(json.dumps(result))
