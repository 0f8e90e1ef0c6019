"""Writes otsu.json: histograms of 256 values with the level that scikit-image finds for each.

Run with Debian's python3-skimage; the versions used are written into the file. `exact` is the
level by the definition (largest variance between the classes, lowest of equal ones) in rational
arithmetic, which shows where scikit-image's single precision decides between near ties. Afterwards
`npx biome format --write tests/ink/reference` lays the file out.
"""

import json
import platform
from fractions import Fraction
from pathlib import Path

import numpy
import skimage
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


def exact_level(histogram):
    total = sum(histogram)
    moment = sum(v * n for v, n in enumerate(histogram))
    below = below_moment = level = 0
    best = Fraction(-1)
    for v in range(255):
        below += histogram[v]
        below_moment += v * histogram[v]
        above = total - below
        if below == 0 or above == 0:
            continue
        lead = Fraction(below_moment, below) - Fraction(moment - below_moment, above)
        variance = below * above * lead * lead
        if variance > best:
            best, level = variance, v
    return level


result = {
    "generator": "generate-otsu.py",
    "versions": {
        "scikit-image": skimage.__version__,
        "numpy": numpy.__version__,
        "python": platform.python_version(),
    },
    "histograms": [
        {
            "name": name,
            # Value and count of every value that occurs.
            "values": [int(v) for v in numpy.flatnonzero(histogram)],
            "counts": [int(histogram[v]) for v in numpy.flatnonzero(histogram)],
            "level": int(threshold_otsu(hist=(histogram, values))),
            "exact": exact_level([int(n) for n in histogram]),
        }
        for name, histogram in histograms.items()
    ],
}

Path(__file__).with_name("otsu.json").write_text(json.dumps(result))
