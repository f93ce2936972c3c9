"""Least largest distance between hand and handle when the upper arm may turn.

Reads a list of cases as JSON from stdin and prints one number a line: over the
handle's radius and place along the axis and over a turn of the upper arm at every
flexion, the least largest distance, by scipy's SLSQP from several starts. The
hand is turned by scipy's own rotations, and nothing of the program is used.
"""

import json
import sys

import numpy as np
from scipy.optimize import minimize
from scipy.spatial.transform import Rotation


def least(c):
    axis, proximal = np.array(c["axis"]), np.array(c["proximal"])
    pivot, elbow, most = np.array(c["pivot"]), np.array(c["elbow"]), c["most"]
    hinge = np.array(c["hinge"])
    straight = np.array(c["straight"])  # hand from the elbow, arm straight
    hands = [Rotation.from_rotvec(hinge * a).apply(straight) for a in c["angles"]]
    n = len(hands)

    def seen(turns):
        at = np.array([Rotation.from_rotvec(proximal * t).apply(h) for t, h in zip(turns, hands)]) + elbow - pivot
        along = at @ axis
        return np.linalg.norm(at - np.outer(along, axis), axis=1), along

    def slack(x):
        radial, along = seen(x[3:])
        return x[0] - np.hypot(radial - x[1], along - x[2])

    best = np.inf
    rng = np.random.default_rng(7)
    for start in range(2):
        turns = np.zeros(n) if start == 0 else rng.uniform(-most, most, n)
        radial, along = seen(turns)
        x = np.r_[60.0, radial.mean(), along.mean(), turns]
        r = minimize(lambda x: x[0], x, jac=lambda x: np.r_[1.0, np.zeros(n + 2)],
                     bounds=[(0, None), (0, None), (None, None)] + [(-most, most)] * n,
                     constraints={"type": "ineq", "fun": slack}, method="SLSQP",
                     options={"maxiter": 400, "ftol": 1e-10})
        miss = -min(0.0, slack(r.x).min())
        best = min(best, r.x[0] + miss)
    return best


for case in json.load(sys.stdin):
    print(f"{least(case):.6f}")
