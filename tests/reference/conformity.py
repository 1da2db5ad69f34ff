"""Probabilities of conformity by scipy, to compare src/trade/conformity.rs with.

Repeat: python -m venv v && v/bin/pip install scipy==1.17.1
        v/bin/python tests/reference/conformity.py > tests/reference/conformity.json
"""

import json
import platform

import scipy
from scipy.stats import norm, uniform

BANDS = [(234.0, 286.0), (None, 286.0), (234.0, None), (259.0, 261.0)]
VALUES = [225.0, 233.0, 234.0, 241.5, 260.0, 260.9, 279.0, 281.0, 286.0, 290.0, 301.0]
FIGURES = [0.5, 2.0, 7.0, 26.0, 80.0]


def probability(model, value, low, high, figure):
    if model == "expanded-uncertainty":
        spread = norm(loc=value, scale=figure / 2.0)
    else:
        spread = uniform(loc=value - figure, scale=2.0 * figure)
    above = 1.0 if high is None else float(spread.cdf(high))
    below = 0.0 if low is None else float(spread.cdf(low))
    return above - below


rows = [
    {
        "model": model,
        "value": value,
        "min": low,
        "max": high,
        "figure": figure,
        "probability": probability(model, value, low, high, figure),
    }
    for model in ("expanded-uncertainty", "maximum-permissible-error")
    for low, high in BANDS
    for value in VALUES
    for figure in FIGURES
]
print(
    json.dumps(
        {"python": platform.python_version(), "scipy": scipy.__version__, "rows": rows}, indent=1
    )
)
