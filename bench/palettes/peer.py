"""Native OpenCV, driven over standard input and output: one JSON request a line, milliseconds back.

    python3 peer.py <indices file> <colors file> <width> <height> <BGR file of many swatches>

PNGs are written and read in memory, with OpenCV's own settings.
"""
import json
import sys
from time import perf_counter

import cv2
import numpy as np

cv2.setNumThreads(1)
index_file, color_file, width, height = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
indices = np.fromfile(index_file, np.uint8).reshape(height, width)
colors = np.zeros((256, 3), np.uint8)
given = np.fromfile(color_file, np.uint8).reshape(-1, 3)
colors[: len(given)] = given[:, ::-1]
bgr = colors[indices]
many = np.fromfile(sys.argv[5], np.uint8).reshape(height, width, 3)
table = np.fromiter(((i * 7 + 3) % 49 if i < 49 else 0 for i in range(256)), np.uint8)
target = np.zeros_like(indices)
files = {}
print(json.dumps({"version": cv2.__version__}), flush=True)
for line in sys.stdin:
    do = json.loads(line)["do"]
    start = perf_counter()
    if do == "remap":
        result = cv2.LUT(indices, table)
    elif do == "remap into":
        result = cv2.LUT(indices, table, target)
    elif do == "write":
        _, result = cv2.imencode(".png", bgr)
    elif do == "write rgb":
        _, result = cv2.imencode(".png", many)
    elif do == "read rgb":
        result = cv2.imdecode(files["write rgb"], cv2.IMREAD_UNCHANGED)
    elif do == "write gray":
        _, result = cv2.imencode(".png", indices)
    else:
        result = cv2.imdecode(files["write"], cv2.IMREAD_UNCHANGED)
    ms = (perf_counter() - start) * 1000
    files[do] = result if do.startswith("write") else None
    total = len(result) if do.startswith("write") else int(result.sum(dtype=np.int64))
    print(json.dumps({"ms": ms, "total": total}), flush=True)
