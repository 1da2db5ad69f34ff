"""Burn-off fits by numpy and scipy, to compare the least squares of src/trade/burn_off with.

The band is found by a root finder on the interval of the feed, not by the solved equation.

Repeat: python -m venv v && v/bin/pip install numpy==2.4.6 scipy==1.17.1
        v/bin/python tests/reference/burn_off_fit.py > tests/reference/burn_off_fit.json
"""

import csv
import json
import pathlib
import platform
import random

import numpy as np
import scipy
from scipy.optimize import brentq
from scipy.stats import t as student

LEAST = 0.05  # the service shows no band narrower than this to each side


def design(points, form):
    w, i, l = (np.array(column) for column in zip(*points))
    if form == "feed":
        return np.column_stack([i, l * i * i]), w
    return np.column_stack([np.ones_like(i), l * i]), w / i


def fit(points, form, ask):
    x, y = design(points, form)
    (alpha, beta), _, rank, _ = np.linalg.lstsq(x, y, rcond=None)
    out = dict(form=form, alpha=alpha, beta=beta, rank=int(rank))
    dof = len(points) - 2
    if dof == 0:
        return out
    sigma = np.sqrt(np.sum((y - x @ [alpha, beta]) ** 2) / dof)
    out["relative_residual"] = sigma / np.mean(np.abs(y))
    if ask is None:
        return out
    w, l = ask
    feed = lambda i: alpha * i + beta * l * i * i
    central = brentq(lambda i: feed(i) - w, 1e-6, 5000)
    x0 = np.array([central, l * central**2] if form == "feed" else [1.0, l * central])
    half = student.ppf(0.975, dof) * sigma * np.sqrt(1 + x0 @ np.linalg.inv(x.T @ x) @ x0)
    half *= 1.0 if form == "feed" else central
    low = brentq(lambda i: feed(i) - (w - half), 1e-6, 5000)
    high = brentq(lambda i: feed(i) - (w + half), 1e-6, 5000)
    out["ask"] = dict(feed_mm_per_s=w, stick_out_mm=l, central=central,
                      low=min(low, central * (1 - LEAST)), high=max(high, central * (1 + LEAST)))
    return out


def data_sets():
    draw = random.Random(7)
    law = lambda i, l, a=0.30, b=5.0e-5: a * i + b * l * i * i
    yield "two points, own arithmetic", [(90.0, 200.0, 16.0), (145.0, 280.0, 16.0)], None
    exact = [(law(i, l), i, l) for i in (180.0, 230.0, 280.0) for l in (12.0, 18.0, 25.0)]
    yield "exact grid", exact, (law(230.0, 18.0), 18.0)
    for number, noise in enumerate((0.02, 0.06, 0.10)):
        scattered = [(round(law(i, l, 0.32, 5.5e-5) * (1 + draw.gauss(0, noise)), 3), i, l)
                     for i in (160.0, 200.0, 240.0, 280.0, 320.0) for l in (14.0, 19.0, 25.0)]
        yield f"scattered {noise:.0%}", scattered, (round(law(240.0, 19.0), 3), 19.0)
    few = [(70.0, 160.0, 15.0), (98.0, 205.0, 19.0), (131.0, 250.0, 15.0), (140.0, 240.0, 22.0)]
    yield "four points", few, (100.0, 18.0)
    one = [(61.0, 150.0, 19.0), (86.0, 190.0, 19.0), (108.0, 220.0, 19.0), (139.0, 260.0, 19.0)]
    yield "one stick-out", one, (100.0, 19.0)


def robot_log():
    table = pathlib.Path(__file__).parent.parent / "core" / "data" / "jw_robot_weld_40.csv"
    with table.open() as file:
        return [(float(row["feed_speed_in_per_min"]) * 25.4 / 60, float(row["current_A"]), 16.0)
                for row in csv.DictReader(file)]


sets = []
for name, points, ask in data_sets():
    fits = [fit(points, form, ask) for form in ("feed", "feed-per-current")]
    sets.append(dict(name=name, points_mm_per_s_A_mm=points, fits=fits))
log = [fit(robot_log(), form, None) for form in ("feed", "feed-per-current")]
print(json.dumps({
    "made_by": "tests/reference/burn_off_fit.py",
    "repeat": __doc__.split("Repeat: ")[1].strip().split("\n"),
    "versions": {"python": platform.python_version(), "numpy": np.__version__,
                 "scipy": scipy.__version__},
    "student_95": [student.ppf(0.975, dof) for dof in range(1, 31)],
    "sets": sets,
    "robot_log": log,
}, indent=1))
