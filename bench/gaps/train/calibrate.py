"""Whether probabilities hold: of what is given probability p by models that have not seen the drawing's
artist, how much is right.

    python3 bench/gaps/train/calibrate.py <folder>

Reads what `fit.py` left in <folder>; prints a table in Markdown for each stage: by tenths of p, in each
set, the rows, their mean probability and the share that is right, weighted as the answers are.
"""
import json
import sys

import numpy as np


def read(folder, stage):
    with open(f"{folder}/{stage}.json") as f:
        cases = json.load(f)["cases"]
    answers = np.fromfile(f"{folder}/{stage}.answers").reshape(-1, 2)
    of = np.repeat(np.arange(len(cases)), [case["rows"] for case in cases])
    return [case["set"] for case in cases], of, answers


def show(folder, name, stages, title):
    odds = np.fromfile(f"{folder}/{name}.odds")
    parts = [read(folder, stage) for stage in stages]
    sets = np.concatenate([np.array(names)[of] for names, of, _ in parts])
    answers = np.concatenate([answers for *_, answers in parts])
    right, weight = answers[:, 0], answers[:, 1]
    p = 1 / (1 + np.exp(-odds))
    tenth = np.minimum(9, np.floor(10 * p)).astype(int)
    names = sorted(set(sets))
    print(f"\n## {title}\n")
    print("| probability | " + " | ".join(names) + " |")
    print("|---|" + "--:|" * len(names))
    worst = {}
    for k in range(10):
        cells = []
        for name in names:
            mine = (sets == name) & (tenth == k) & (weight > 0)
            if mine.sum() == 0:
                cells.append("–")
                continue
            mean, share = (np.average(v[mine], weights=weight[mine]) for v in (p, right))
            worst[name] = max(worst.get(name, 0), abs(mean - share))
            cells.append(f"{mean:.2f} → {share:.2f} ({mine.sum()})")
        print(f"| {k / 10:.1f} to {(k + 1) / 10:.1f} | " + " | ".join(cells) + " |")
    print("| farthest apart | " + " | ".join(f"{worst[name]:.3f}" for name in names) + " |")


show(sys.argv[1], "local", ["local"], "Proposals, each alone")
show(sys.argv[1], "closure", ["closure", "closure2"], "Pairs of regions, as bridges tell it")
