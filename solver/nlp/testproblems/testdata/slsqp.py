"""Solve the test problems with scipy's SLSQP, which shares no code with package
nlp: from the root of the project,

    go test -c -o serve ./solver/nlp/testproblems
    python3 solver/nlp/testproblems/testdata/slsqp.py ./serve

Prints what the table in docs/solver.md tells, and with -v each run."""
import json, os, subprocess, sys, warnings
import numpy as np
from scipy.optimize import minimize

warnings.simplefilter("ignore")
serve = subprocess.Popen([sys.argv[1], "-test.run", "^TestServe$"], env=dict(os.environ, ARMWRIGHT_SERVE="1"), stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
problems = []
for line in serve.stdout:
    if line == "end\n":
        break
    problems.append(json.loads(line))


class Model:
    def __init__(self, k, p):
        self.k, self.m, self.n, self.at = k, p["M"], len(p["Starts"][0]), None
        self.points = 0

    def ask(self, x):
        if self.at is None or not np.array_equal(x, self.at):
            self.at = np.array(x)
            serve.stdin.write(json.dumps({"p": self.k, "x": list(x)}) + "\n")
            serve.stdin.flush()
            v = np.array(json.loads(serve.stdout.readline()))
            m, n = self.m, self.n
            self.f, self.c, self.g, self.j = v[0], v[1:1 + m], v[1 + m:1 + m + n], v[1 + m + n:].reshape(m, n)
            self.points += 1
        return self


tally = {}
for k, p in enumerate(problems):
    lo = np.array([float(s) for s in p["Lower"]] or [-np.inf] * len(p["Starts"][0]))
    hi = np.array([float(s) for s in p["Upper"]] or [np.inf] * len(p["Starts"][0]))
    eq = np.array(p["Equality"] or [], dtype=bool)
    for start, x0 in enumerate(p["Starts"]):
        q = Model(k, p)
        rows = []
        for kind, pick in (("eq", eq), ("ineq", ~eq)):
            if pick.any():
                rows.append({"type": kind, "fun": lambda x, s=pick: q.ask(x).c[s], "jac": lambda x, s=pick: q.ask(x).j[s]})
        try:
            r = minimize(lambda x: q.ask(x).f, np.clip(x0, lo, hi), jac=lambda x: q.ask(x).g, bounds=list(zip(lo, hi)),
                         constraints=rows, method="SLSQP", options={"ftol": 1e-10, "maxiter": 1000})
            x, claim = np.clip(r.x, lo, hi), r.success
        except Exception as e:
            x, claim = np.array(x0), False
        points = q.points
        q.ask(x)
        miss = max([0] + [abs(c) if e else -c for c, e in zip(q.c, eq)])
        best = p["Minima"][0]
        gap = (q.f - best) / max(1, abs(best)) if abs(best) > 1e-3 or best == 0 else (q.f - best) / abs(best)
        solved = miss <= 1e-6 and gap <= 1e-5
        t = tally.setdefault(p["Set"], dict(runs=0, solved=0, false=0, points=0))
        t["runs"] += 1
        t["solved"] += solved
        t["false"] += claim and not solved
        t["points"] += points
        if "-v" in sys.argv:
            print(f'{p["Name"]:32} {start} {"solved" if solved else "-":7} claims {claim!s:5} f {q.f:.10g} best {best:.10g} miss {miss:.2g} points {points}', "" if gap > -1e-6 or miss > 1e-8 else "BETTER")
for name, t in tally.items():
    print(f'{name:28} {t}')
