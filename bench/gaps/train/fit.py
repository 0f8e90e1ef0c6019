"""Fits a sum of trees to dumped evidence, by scikit-learn's histogram gradient boosting.

    python3 bench/gaps/train/fit.py local <folder> [--without brush] [--also closure2] [--trees 120]

Reads <folder>/<stage>.{json,rows,answers}; writes <stage>.model.json and <stage>.odds, log-odds of
every row by models that have not seen its drawing (4 folds by group). Sets weigh alike.
"""
import argparse
import hashlib
import json

import numpy as np
from sklearn.ensemble import HistGradientBoostingClassifier

# Of a control the false splits are the worst mistakes.
CONTROL = 2.0


def read(folder, stage):
    with open(f"{folder}/{stage}.json") as f:
        meta = json.load(f)
    rows = np.fromfile(f"{folder}/{stage}.rows").reshape(-1, len(meta["columns"]))
    answers = np.fromfile(f"{folder}/{stage}.answers").reshape(-1, 2)
    cases = meta["cases"]
    of = np.repeat(np.arange(len(cases)), [c["rows"] for c in cases])
    return meta, rows, answers[:, 0], answers[:, 1], of


def read_all(folder, stages):
    parts = [read(folder, stage) for stage in stages]
    cases = [case for meta, *_ in parts for case in meta["cases"]]
    starts = np.cumsum([0] + [len(meta["cases"]) for meta, *_ in parts])
    of = np.concatenate([part[4] + start for part, start in zip(parts, starts)])
    rows, y, w = (np.concatenate([part[i] for part in parts]) for i in (1, 2, 3))
    return {"columns": parts[0][0]["columns"], "cases": cases}, rows, y, w, of


# As in `foldOf` of bench/gaps/halves.mjs, by which pages of `nib` are put together.
FOLDS = 4


def fold_of(group):
    return hashlib.sha256(f"fold {group}".encode()).digest()[0] % FOLDS


def balance(weights, sets, controls):
    weights = weights * np.where(controls, CONTROL, 1)
    for name in np.unique(sets):
        mine = sets == name
        weights[mine] *= 1e5 / weights[mine].sum()
    return weights / weights.mean()


# All else alike, a longer bridge is no likelier, a straighter one no less likely; and a border
# whose gaps are likelier is.
RISING = {"turnA", "turnB", "facing", "sumOfOdds", "bestOdds", "worstOdds", "sumOfDoubts"}
FALLING = {"lengthInStrokes", "lengthInWidthsA", "lengthInWidthsB"}


def model(columns, trees, leaves, rate, l2):
    order = [1 if name in RISING else -1 if name in FALLING else 0 for name in columns]
    return HistGradientBoostingClassifier(
        monotonic_cst=order, max_iter=trees, max_leaf_nodes=leaves, learning_rate=rate, l2_regularization=l2,
        min_samples_leaf=30, early_stopping=False, random_state=1)


def flatten(fitted):
    """Nodes in depth-first order; the yes branch of a node comes right behind it."""
    roots, column, limit, no = [], [], [], []
    for (tree,) in fitted._predictors:
        nodes = tree.nodes
        roots.append(len(column))

        def walk(i):
            node = nodes[i]
            at = len(column)
            column.append(-1 if node["is_leaf"] else int(node["feature_idx"]))
            limit.append(float(f"{node['value' if node['is_leaf'] else 'num_threshold']:.4g}"))
            no.append(0)
            if not node["is_leaf"]:
                walk(node["left"])
                no[at] = len(column)
                walk(node["right"])

        walk(0)
    base = float(f"{fitted._baseline_prediction.item():.4g}")
    return {"base": base, "roots": roots, "column": column, "limit": limit, "no": no}


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("stage")
    parser.add_argument("folder")
    parser.add_argument("--without", default="")
    parser.add_argument("--also", default="")
    parser.add_argument("--trees", type=int, default=120)
    parser.add_argument("--leaves", type=int, default=12)
    parser.add_argument("--rate", type=float, default=0.1)
    parser.add_argument("--l2", type=float, default=5)
    parser.add_argument("--whole", action="store_true", help="without folds")
    parser.add_argument("--suffix", default="")
    args = parser.parse_args()
    stages = [args.stage] + [stage for stage in args.also.split(",") if stage]
    meta, rows, y, w, of = read_all(args.folder, stages)
    cases = meta["cases"]
    sets = np.array([c["set"] for c in cases])[of]
    gaps = np.array([c["gap"] for c in cases])[of]
    use = w > 0
    if args.without:
        use &= ~np.isin(sets, args.without.split(","))
    weights = np.zeros(len(y))
    weights[use] = balance(w[use], sets[use], gaps[use] == 0)
    make = lambda: model(meta["columns"], args.trees, args.leaves, args.rate, args.l2)
    if not args.whole:
        odds = np.zeros(len(y))
        names = sorted({c["group"] for c in cases})
        folds = {"models": [], "of": {name: fold_of(name) for name in names}}
        fold = np.array([fold_of(c["group"]) for c in cases])[of]
        for k in range(FOLDS):
            test = fold == k
            train = np.flatnonzero(~test & use)
            fitted = make().fit(rows[train], y[train], sample_weight=weights[train])
            odds[test] = fitted.decision_function(rows[test])
            folds["models"].append(flatten(fitted))
        with open(f"{args.folder}/{args.stage}.folds{args.suffix}.json", "w") as f:
            json.dump(folds, f)
        odds.tofile(f"{args.folder}/{args.stage}.odds{args.suffix}")
        for name in np.unique(sets):
            mine = (sets == name) & (w > 0)
            loss = np.logaddexp(0, np.where(y[mine] > 0, -odds[mine], odds[mine]))
            wrong = (odds[mine] > 0) != (y[mine] > 0)
            full = w[mine] >= 1
            print(f"{name}: rows {mine.sum()} right {y[mine].mean():.3f} "
                  f"log loss {np.average(loss, weights=w[mine]):.4f} "
                  f"wrong {np.average(wrong, weights=w[mine]):.4f} of full weight {wrong[full].mean():.4f}")
    fitted = make().fit(rows[use], y[use], sample_weight=weights[use])
    with open(f"{args.folder}/{args.stage}.model{args.suffix}.json", "w") as f:
        json.dump({"columns": meta["columns"], **flatten(fitted)}, f)


main()
