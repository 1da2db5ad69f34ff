"""Windows by scipy, to compare the solvers of src/window with.

Everything is set up here anew, from the physical equations, with logarithms of
feed w, volts U, current I, travel speed v and stick-out L as unknowns. Lowest and
highest values and the greatest common drift come from scipy.optimize.linprog
(HiGHS), the nearest setting from scipy.optimize.nnls as a least-distance
programme (Lawson and Hanson 1974, chapter 23).

Repeat: python -m venv v && v/bin/pip install numpy==2.4.6 scipy==1.17.1
        v/bin/python tests/reference/windows.py > tests/reference/windows.json
"""

import json
import platform
import random

import numpy as np
import scipy
from scipy.optimize import linprog, nnls

COUNT = 1000
NAMES = ["wire-feed", "voltage", "current", "travel-speed", "electrical-stick-out"]
# Plausible spans of the service, in m/min, V, A, mm/min and mm.
SPAN = np.log([[0.1, 60.0], [1.0, 150.0], [1.0, 3000.0], [1.0, 10000.0], [1.0, 200.0]])
K = 0.8  # EN 1011-1, Table 1: MAG with flux-cored wire
# Relative drift: 2 % of what is dialled, 5 % of what follows or is held by hand.
DRIFT = np.log1p([0.02, 0.02, 0.05, 0.05, 0.05])
UNITS = {"arc-energy": np.log(0.06), "heat-input": np.log(0.06 * K), "arc-power": 0.0}
WEIGHTS = {
    "arc-energy": [0, 1, 1, -1, 0],
    "heat-input": [0, 1, 1, -1, 0],
    "arc-power": [0, 1, 1, 0, 0],
}


def digits(value, places=4):
    return float(f"{value:.{places}g}")


def window(random):
    middle = [random.uniform(4, 14), random.uniform(18, 32), random.uniform(120, 350),
              random.uniform(150, 700), random.uniform(12, 28)]
    limits = {}
    for name, value in zip(NAMES, middle):
        half = random.uniform(0.03, 0.3)
        limits[name] = [digits(value * (1 - half)), digits(value * (1 + half))]
    arc = {"arc-power": middle[1] * middle[2]}
    arc["arc-energy"] = 0.06 * arc["arc-power"] / middle[3]
    arc["heat-input"] = K * arc["arc-energy"]
    for name, value in arc.items():
        if random.random() < 0.7:
            low = digits(value * random.uniform(0.55, 1.02)) if random.random() < 0.6 else None
            high = digits(value * random.uniform(0.98, 1.6))
            limits[name] = [low, high]
    one = {"limits": limits, "spread": [digits(random.choice([0, 0.05, 0.1]), 3) for _ in range(2)]}
    if random.random() < 0.6:
        one["response"] = {
            "through": [digits(middle[0]), digits(middle[2]), digits(middle[4])],
            "exponents": [digits(random.uniform(0.6, 1.1), 3), digits(-random.uniform(0.1, 0.5), 3)],
            "band": [digits(random.uniform(0.01, 0.1), 3), digits(random.uniform(0.01, 0.1), 3)],
            "reach": [limits["wire-feed"], [8.0, 40.0]],
        }
    one["from"] = [digits(value * random.uniform(0.7, 1.4)) for value in middle]
    return one


def half_spaces(one):
    """Rows of A x <= b, the drift of each, and which unknowns are free."""
    response = one.get("response")
    stray = np.zeros((5, 2))
    for axis, share in zip([3, 4], one["spread"]):
        stray[axis] = [-np.log1p(-share), np.log1p(share)]
    rows, bounds = [], []

    def add(weights, bound):
        weights = np.array(weights, float)
        if response and weights[2]:
            w, i, l = np.log(response["through"])
            p, q = response["exponents"]
            below, above = response["band"]
            share = np.log1p(above) if weights[2] > 0 else np.log1p(-below)
            bound -= weights[2] * (i - p * w - q * l + share)
            weights = weights + weights[2] * np.array([p, 0, -1, 0, q])
        for axis in range(5):
            down, up = stray[axis]
            bound -= weights[axis] * up if weights[axis] > 0 else -weights[axis] * down
        rows.append(weights)
        bounds.append(bound)

    def limit(name, low, high):
        weights = WEIGHTS.get(name) or [float(name == other) for other in NAMES]
        unit = UNITS.get(name, 0.0)
        if high is not None:
            add(weights, np.log(high) - unit)
        if low is not None:
            add([-weight for weight in weights], unit - np.log(low))

    for name, ends in one["limits"].items():
        limit(name, *ends)
    if response:
        limit("wire-feed", *response["reach"][0])
        limit("electrical-stick-out", *response["reach"][1])
    free = [axis for axis in range(5) if not (response and axis == 2)]
    return np.array(rows)[:, free], np.array(bounds), free


def least(c, a, b, box):
    found = linprog(c, A_ub=a, b_ub=b, bounds=box, method="highs",
                    options={"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10})
    return found if found.status == 0 else None


def nearest(a, b, start):
    """min |x - start| with A x <= b: least distance with G z >= h, z = x - start."""
    g, h = -a, -(b - a @ start)
    e = np.vstack([g.T, h])
    f = np.zeros(e.shape[0])
    f[-1] = 1.0
    u, _ = nnls(e, f, maxiter=10000)
    r = e @ u - f
    return start - r[:-1] / r[-1]


def solve(one):
    a, b, free = half_spaces(one)
    box = SPAN[free]
    zero = np.zeros(len(free))
    if least(zero, a, b, box) is None:
        return {"empty": True}
    ends = {}
    for place, axis in enumerate(free):
        c = zero.copy()
        c[place] = 1.0
        low, high = least(c, a, b, box), least(-c, a, b, box)
        ends[NAMES[axis]] = [float(np.exp(low.fun)), float(np.exp(-high.fun))]
    drift = DRIFT[free]
    wide = np.hstack([a, (np.abs(a) @ drift)[:, None]])
    best = least(np.append(zero, -1.0), wide, b, np.vstack([box, [0, 100]]))
    start = np.log(np.array(one["from"]))[free]
    walls = np.vstack([a, np.eye(len(free)), -np.eye(len(free))])
    heights = np.concatenate([b, box[:, 1], -box[:, 0]])
    x = nearest(walls, heights, start)
    assert np.max(walls @ x - heights) < 1e-7
    change = float(np.linalg.norm(x - start))
    return {"ends": ends, "drift": float(-best.fun), "change": change}


def rounded(value):
    if isinstance(value, dict):
        return {name: rounded(inner) for name, inner in value.items()}
    if isinstance(value, list):
        return [rounded(inner) for inner in value]
    return float(f"{value:.10g}") if isinstance(value, float) else value


def main():
    generator = random.Random(20250601)
    versions = {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__}
    print('{"versions": ' + json.dumps(versions) + ', "windows": [')
    for number in range(COUNT):
        one = window(generator)
        one["answer"] = solve(one)
        print(json.dumps(rounded(one), separators=(",", ":")) + ("," if number + 1 < COUNT else ""))
    print("]}")


main()
