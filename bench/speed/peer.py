"""Native OpenCV and scikit-image, driven over standard input and output: one JSON request a line,
milliseconds and a checksum back.

    python3 peer.py

Everything runs on one thread. A request is `{"do": name, "on": page}`, where a page is a raw file of
bytes with its size: `{"file", "width", "height"}`, read once until it is to be forgotten.
"""
import json
import sys
import zlib
from time import perf_counter

import cv2
import numpy as np

try:
    from skimage.filters import threshold_sauvola
    from skimage.measure import label
except ImportError:
    threshold_sauvola = label = None

cv2.setNumThreads(1)
pages = {}


def page(on):
    key = on["file"]
    if key not in pages:
        gray = np.fromfile(key, np.uint8).reshape(on["height"], on["width"])
        paper = (gray > 127).astype(np.uint8)
        pages[key] = {"gray": gray, "paper": paper, "ink": 1 - paper}
    return pages[key]


COLORS = np.fromiter(((97 * i + 31) % 256 for i in range(3 * 256)), np.uint8).reshape(256, 3)


def polygons(p, rings):
    target = p["gray"].copy()
    start = perf_counter()
    for value, ring in enumerate(rings):
        cv2.fillPoly(target, [ring], value % 250 + 1)
    return start, target


def flood(p, seeds):
    target = p["gray"].copy()
    start = perf_counter()
    for x, y in seeds:
        cv2.floodFill(target, None, (x, y), 77, 0, 0, 4 | cv2.FLOODFILL_FIXED_RANGE)
    return start, target


def whole(p):
    _, paper = cv2.threshold(p["gray"], 127, 255, cv2.THRESH_BINARY)
    cv2.distanceTransform(paper, cv2.DIST_L2, cv2.DIST_MASK_PRECISE)
    return cv2.connectedComponents(paper, connectivity=4)[1]


def measured(p):
    return cv2.connectedComponentsWithStats(p["paper"], connectivity=4)[1]


def files(p):
    bgr = COLORS[p["gray"]]
    start = perf_counter()
    _, bytes = cv2.imencode(".png", bgr)
    return start, cv2.imdecode(bytes, cv2.IMREAD_UNCHANGED)


JOBS = {
    "mask": lambda p: cv2.threshold(p["gray"], 127, 1, cv2.THRESH_BINARY_INV)[1],
    "otsu": lambda p: cv2.threshold(p["gray"], 0, 1, cv2.THRESH_BINARY_INV + cv2.THRESH_OTSU)[1],
    "adaptive": lambda p: cv2.adaptiveThreshold(
        p["gray"], 1, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, 51, 10
    ),
    "label4": lambda p: cv2.connectedComponents(p["paper"], connectivity=4)[1],
    "label8": lambda p: cv2.connectedComponents(p["ink"], connectivity=8)[1],
    "measured": measured,
    "distance": lambda p: cv2.distanceTransform(p["paper"], cv2.DIST_L2, cv2.DIST_MASK_PRECISE),
    "copy": lambda p: p["gray"].copy(),
    "whole": whole,
}
SCIKIT = {
    "sauvola": lambda p: p["gray"] < threshold_sauvola(p["gray"], 51, k=0.2),
    "label4": lambda p: label(p["paper"], connectivity=1),
}


def answer(request):
    if request["do"] == "forget":
        pages.clear()
        return {}
    p = page(request["on"])
    do = request["do"]
    if request.get("by") == "scikit-image":
        start = perf_counter()
        result = SCIKIT[do](p)
    elif do == "flood":
        start, result = flood(p, request["seeds"])
    elif do == "polygons":
        start, result = polygons(p, [np.array(ring, np.int32) for ring in request["rings"]])
    elif do == "files":
        start, result = files(p)
    else:
        start = perf_counter()
        result = JOBS[do](p)
    ms = (perf_counter() - start) * 1000
    return {"ms": ms, "sum": zlib.crc32(np.ascontiguousarray(result).view(np.uint8)[::97].tobytes())}


print(json.dumps({"version": cv2.__version__, "scikit": label is not None}), flush=True)
for line in sys.stdin:
    print(json.dumps(answer(json.loads(line))), flush=True)
