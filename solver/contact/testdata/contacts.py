"""Least contact and muscle forces of a chain of segments by an independent route: every
segment balanced by itself with its joint forces and moments as unknowns, contact forces
as non-negative parts along the two edges of their friction cones, non-negative least
squares by scipy (Lawson and Hanson) with the equations weighted heavily; whether a
state exists by a linear program (HiGHS). Reads a list of bodies from stdin as JSON,
lengths mm, forces N; writes {exists, push, hold} of each."""

import json
import sys

import numpy
from scipy.optimize import linprog, nnls

LENGTH = 500.0  # makes moments comparable with forces
HEAVY = 1e4


def solve(body):
    segments, contacts = body["segments"], body["contacts"]
    n, c = len(segments), len(contacts)
    # Unknowns: two cone edges a contact; then of each joint force x, force y and moment,
    # each as a difference of two; then a slack for each limit.
    joint = lambda i: 2 * c + 6 * (i - 1)
    limits = [(i, s, v) for i in range(1, n) for s, v in ((1, segments[i]["most"]), (-1, segments[i]["least"])) if v is not None]
    size = 2 * c + 6 * (n - 1) + len(limits)
    rows, rhs = [], []
    cross = lambda a, b: a[0] * b[1] - a[1] * b[0]
    edges = []
    for q in contacts:
        nx, ny = q["normal"]
        tx, ty = ny, -nx
        mu = q["friction"]
        edges.append([((nx + s * mu * tx), (ny + s * mu * ty)) for s in (1, -1)])
    for i, seg in enumerate(segments):
        eq = numpy.zeros((3, size))
        known = numpy.zeros(3)
        for f in seg["forces"]:
            known += [f["force"][0], f["force"][1], cross(f["at"], f["force"]) / LENGTH]
        for k, q in enumerate(contacts):
            if q["segment"] == i:
                for e in range(2):
                    d = edges[k][e]
                    eq[:, 2 * k + e] += [d[0], d[1], cross(q["at"], d) / LENGTH]
        for j in range(1, n):
            sign = 1 if j == i else -1 if segments[j]["parent"] == i else 0
            if sign:
                at = segments[j]["joint"]
                for col, unit in enumerate(([1, 0, cross(at, (1, 0)) / LENGTH], [0, 1, cross(at, (0, 1)) / LENGTH], [0, 0, 1])):
                    for half in range(2):
                        eq[:, joint(j) + 2 * col + half] += sign * (1 - 2 * half) * numpy.array(unit)
        rows.append(eq)
        rhs.append(-known)
    for at, (i, sign, value) in enumerate(limits):
        eq = numpy.zeros((1, size))
        eq[0, joint(i) + 4], eq[0, joint(i) + 5] = sign, -sign
        eq[0, 2 * c + 6 * (n - 1) + at] = 1
        rows.append(eq)
        rhs.append([sign * value / LENGTH])
    a, b = numpy.vstack(rows), numpy.concatenate(rhs)
    if linprog(numpy.zeros(size), A_eq=a, b_eq=b, bounds=(0, None), method="highs").status == 2:
        return {"exists": False}
    cost = []
    for k, q in enumerate(contacts):
        w = q["points"] ** 0.5
        push, hold = numpy.zeros(size), numpy.zeros(size)
        push[2 * k : 2 * k + 2] = w
        hold[2 * k], hold[2 * k + 1] = w * q["friction"], -w * q["friction"]
        cost += [push, hold]
    for i in range(1, n):
        if segments[i]["arm"] > 0:
            m = numpy.zeros(size)
            m[joint(i) + 4], m[joint(i) + 5] = LENGTH / segments[i]["arm"], -LENGTH / segments[i]["arm"]
            cost.append(m)
    x, _ = nnls(numpy.vstack([numpy.array(cost), HEAVY * a]), numpy.concatenate([numpy.zeros(len(cost)), HEAVY * b]), maxiter=100 * size)
    if numpy.abs(a @ x - b).max() > 0.05:
        raise SystemExit(f"not balanced: {numpy.abs(a @ x - b).max()} N")
    return {
        "exists": True,
        "push": [x[2 * k] + x[2 * k + 1] for k in range(c)],
        "hold": [contacts[k]["friction"] * (x[2 * k] - x[2 * k + 1]) for k in range(c)],
    }


json.dump([solve(b) for b in json.load(sys.stdin)], sys.stdout)
