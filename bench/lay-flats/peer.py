"""Native OpenCV on the page: threshold, precise distance transform, connected components.

    python3 peer.py <page file> <width> <height> <runs>

Prints a list of milliseconds as JSON, with the version.
"""
import json
import sys
from time import perf_counter

import cv2
import numpy as np

file, width, height, runs = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4])
page = np.fromfile(file, np.uint8).reshape(height, width)
times = []
for _ in range(runs):
    start = perf_counter()
    _, paper = cv2.threshold(page, 127, 255, cv2.THRESH_BINARY)
    cv2.distanceTransform(paper, cv2.DIST_L2, cv2.DIST_MASK_PRECISE)
    cv2.connectedComponents(paper, connectivity=4)
    times.append((perf_counter() - start) * 1000)
print(json.dumps({"version": cv2.__version__, "ms": times}))
