"""Thresholds of native libraries on the page, one thread each.

    python3 peer.py <page file> <width> <height> <window> <k> <runs>

Prints versions and lists of milliseconds as JSON.
"""
import json
import sys
from time import perf_counter

import cv2
import numpy as np
import skimage
from skimage.filters import threshold_sauvola

file, width, height, window = sys.argv[1], *map(int, sys.argv[2:5])
k, runs = float(sys.argv[5]), int(sys.argv[6])
cv2.setNumThreads(1)
page = np.fromfile(file, np.uint8).reshape(height, width)
target = np.empty_like(page)
calls = {
    "OpenCV threshold, Otsu": lambda: cv2.threshold(page, 0, 255, cv2.THRESH_BINARY_INV | cv2.THRESH_OTSU, target),
    "OpenCV adaptiveThreshold, mean": lambda: cv2.adaptiveThreshold(
        page, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, window, 10, target
    ),
    "scikit-image threshold_sauvola": lambda: page <= threshold_sauvola(page, window, k=k),
}
ms = {}
for name, call in calls.items():
    times = []
    for _ in range(runs if name.startswith("OpenCV") else 1):
        start = perf_counter()
        call()
        times.append((perf_counter() - start) * 1000)
    ms[name] = times
print(json.dumps({"versions": f"OpenCV {cv2.__version__}, scikit-image {skimage.__version__}", "ms": ms}))
