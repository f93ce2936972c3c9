"""Closest feasible cam by an independent route: scipy's spline, the radius of
curvature from the envelope of the cable line by finite differences, and SLSQP
from several starts. Reads the problem as JSON, writes the best rms in mm."""
import json
import sys

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.optimize import minimize

p = json.load(sys.stdin)
knots = np.linspace(p["from"], p["to"], p["nodes"])
angles, want, grid = (np.array(p[k]) for k in ("angles", "want", "grid"))
qx, qy, r, side, k = p["guide_x"], p["guide_y"], p["guide_radius"], p["side"], p["ratio"]
distance, bearing = np.hypot(qx, qy), np.arctan2(qy, qx)


def law(h):
    return CubicSpline(knots, h, bc_type="not-a-knot")


def radius(h):
    """rho = H + H'' over the body angle phi, by the chain rule from the line's
    angle phi(theta) = bearing + acos((h - side r)/distance) - k theta."""
    s = law(h)
    a, a1, a2 = s(grid), s(grid, 1), s(grid, 2)
    w = (a - side * r) / distance
    root = np.sqrt(1 - w * w)
    phi1 = -a1 / distance / root - k
    phi2 = -a2 / distance / root - w * (a1 / distance) ** 2 / root**3
    return a + (a2 * phi1 - a1 * phi2) / phi1**3


basis = np.array([law(e)(angles) for e in np.eye(p["nodes"])]).T
values = np.array([law(e)(grid) for e in np.eye(p["nodes"])]).T
limits = [
    {"type": "ineq", "fun": lambda h: (radius(h) - p["radius"]) / 10},
    {"type": "ineq", "fun": lambda h: (values @ h - p["least_arm"]) / 10, "jac": lambda h: values / 10},
    {"type": "ineq", "fun": lambda h: (p["greatest_arm"] - values @ h) / 10, "jac": lambda h: -values / 10},
]


def miss(h):
    return float(np.mean((basis @ h - want) ** 2))


def slope(h):
    return 2 / len(want) * basis.T @ (basis @ h - want)


best = np.inf
rng = np.random.default_rng(1)
mean = np.clip(want.mean(), max(p["radius"], p["least_arm"]), p["greatest_arm"])
starts = [np.full(p["nodes"], mean), np.clip(np.interp(knots, angles, want), p["least_arm"], p["greatest_arm"])]
starts += [mean * (1 + 0.1 * rng.standard_normal(p["nodes"])) for _ in range(6)]
for start in starts:
    with np.errstate(all="ignore"):
        found = minimize(miss, start, jac=slope, method="SLSQP", constraints=limits, options={"maxiter": 500, "ftol": 1e-12})
        if not np.all(np.isfinite(found.x)):
            continue
        short = max(0.0, *(-10 * np.min(c["fun"](found.x)) for c in limits))
    if short < 1e-4:
        best = min(best, np.sqrt(miss(found.x)))
print(repr(float(best)))
