"""Cooling times 800 to 500 °C by numerical integration of the moving point source, to compare the method of
images of src/trade/cooling with.

A point source moves over the surface of a plate of thickness d at speed v; each instant's heat spreads as in a
half space, mirrored at both faces. The rise on the axis behind the source is the integral over all instants
passed (Carslaw and Jaeger, Conduction of Heat in Solids, 10.7; Rosenthal 1941). The service's formula is the
limit of high speed, so the two differ by the share of heat that runs ahead of the source.

Repeat: python -m venv v && v/bin/pip install numpy==2.4.6 scipy==1.17.1
        v/bin/python tests/reference/cooling_times.py > tests/reference/cooling_times.json
"""

import json
import math
import platform

import numpy as np
import scipy
from scipy.integrate import quad
from scipy.optimize import brentq

IMAGES = np.arange(1, 60)


def rise(t, q_per_mm, v, d, conductivity, heat_capacity):
    """Rise on the axis, t seconds after the source passed; q_per_mm in J/mm, v in mm/s."""
    a = conductivity / heat_capacity
    power = q_per_mm * v

    def instant(log_tau):
        tau = math.exp(log_tau)
        away = v * (tau - t)
        mirrored = 1 + 2 * np.sum(np.exp(-(IMAGES**2) * d * d / (a * tau)))
        spread = 2 * power / (heat_capacity * (4 * math.pi * a * tau) ** 1.5)
        return spread * math.exp(-(away**2) / (4 * a * tau)) * mirrored * tau

    width = math.sqrt(4 * a * t) * 8 / v
    low, high = max(t - width, t * 1e-3), t + width + 40 * a / v**2
    value, _ = quad(instant, math.log(low), math.log(high), points=[math.log(t)], limit=400)
    return value


def cooling_time(case):
    def at(temperature):
        wanted = temperature - case["t0"]
        gap = lambda t: rise(t, case["q"] * 1000, case["v"], case["d"], case["l"], case["c"]) - wanted
        return brentq(gap, 0.05, 3000, xtol=1e-9)

    return at(500) - at(800)


def main():
    metals = [(0.0240, 0.0075), (0.030, 0.0055), (0.025, 0.0050)]
    plates = [(1.0, 20, 30), (1.0, 20, 10), (1.5, 100, 20), (0.768, 20, 8), (2.0, 150, 40), (1.2, 75, 15)]
    rows = []
    for conductivity, heat_capacity in metals:
        for q, t0, d in plates:
            case = {"q": q, "t0": t0, "d": d, "l": conductivity, "c": heat_capacity, "v": 20.0}
            rows.append({**case, "seconds": cooling_time(case)})
    repeat = [line for line in __doc__.splitlines() if "v/bin" in line]
    versions = {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__}
    made = {"made_by": "tests/reference/cooling_times.py", "repeat": repeat, "versions": versions}
    print(json.dumps({**made, "rows": rows}, indent=1))


main()
