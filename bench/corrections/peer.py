"""Native OpenCV, driven over standard input and output: one JSON request a line, milliseconds back.

Every request works on a fresh copy of the page, which is made before the clock starts.
"""
import json
import sys
from time import perf_counter

import cv2
import numpy as np

cv2.setNumThreads(1)
page_file, polygon_file, width, height = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
page = np.fromfile(page_file, np.uint8).reshape(height, width)
polygons = [np.array(p, np.int32) for p in json.load(open(polygon_file))]
print(json.dumps({"version": cv2.__version__}), flush=True)
for line in sys.stdin:
    request = json.loads(line)
    target = page.copy()
    total = 0
    if request["do"] == "flood":
        start = perf_counter()
        for x, y in request["seeds"]:
            area, _, _, _ = cv2.floodFill(target, None, (x, y), 77, 0, 0, 4 | cv2.FLOODFILL_FIXED_RANGE)
            total += area
        ms = (perf_counter() - start) * 1000
    else:
        chosen = polygons[request["from"] : request["to"]]
        start = perf_counter()
        for value, polygon in enumerate(chosen):
            cv2.fillPoly(target, [polygon], value % 250 + 1)
        ms = (perf_counter() - start) * 1000
        total = int(np.count_nonzero(target != page))
    print(json.dumps({"ms": ms, "total": total}), flush=True)
