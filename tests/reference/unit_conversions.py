"""Unit conversions by pint, to compare every unit of src/quantity/kinds with.

The kinds and symbols are read from the source, so that none is left out; what a symbol means is said here.

Repeat: python -m venv v && v/bin/pip install pint==0.25.3
        v/bin/python tests/reference/unit_conversions.py > tests/reference/unit_conversions.json
"""

import json
import pathlib
import platform
import re

import pint

NUMBER = 7.25

MEANING = {
    "A": "ampere", "V": "volt", "W": "watt", "kW": "kilowatt", "J": "joule", "kJ": "kilojoule",
    "MJ": "megajoule", "kWh": "kilowatt_hour", "mm": "millimeter", "cm": "centimeter", "m": "meter",
    "in": "inch", "ft": "foot", "mm2": "millimeter**2", "cm2": "centimeter**2", "in2": "inch**2",
    "mm/min": "millimeter/minute", "mm/s": "millimeter/second", "cm/min": "centimeter/minute",
    "m/min": "meter/minute", "in/min": "inch/minute", "s": "second", "min": "minute", "h": "hour",
    "kJ/mm": "kilojoule/millimeter", "J/mm": "joule/millimeter", "kJ/cm": "kilojoule/centimeter",
    "kJ/in": "kilojoule/inch", "J/in": "joule/inch", "L/min": "liter/minute", "ft3/h": "foot**3/hour",
    "L": "liter", "m3": "meter**3", "ft3": "foot**3", "kg": "kilogram", "g": "gram", "lb": "pound",
    "g/m": "gram/meter", "kg/m": "kilogram/meter", "lb/ft": "pound/foot", "kg/h": "kilogram/hour",
    "g/min": "gram/minute", "lb/h": "pound/hour", "g/cm3": "gram/centimeter**3",
    "kg/m3": "kilogram/meter**3", "lb/in3": "pound/inch**3", "MPa": "megapascal",
    "ksi": "1000*pound_force_per_square_inch", "psi": "pound_force_per_square_inch", "1": "dimensionless",
    "%": "0.01*dimensionless", "ppm": "1e-6*dimensionless", "mL/100g": "0.01*milliliter/gram",
    "deg": "degree", "°C": "degC", "°F": "degF", "K": "kelvin", "°C/s": "delta_degC/second",
    "°F/s": "delta_degF/second", "J/mm3": "joule/millimeter**3", "J/in3": "joule/inch**3",
    "mm/(s.A)": "millimeter/second/ampere", "in/(min.A)": "inch/minute/ampere",
    "s-1.A-2": "1/second/ampere**2", "min-1.A-2": "1/minute/ampere**2", "g/(A.h)": "gram/ampere/hour",
    "lb/(A.h)": "pound/ampere/hour", "W/(mm·K)": "watt/millimeter/kelvin",
    "W/(m·K)": "watt/meter/kelvin", "J/(mm3·K)": "joule/millimeter**3/kelvin",
    "MJ/(m3·K)": "megajoule/meter**3/kelvin",
}

REGISTRY = pint.UnitRegistry()


def kinds():
    root = pathlib.Path(__file__).parents[2] / "src/quantity/kinds"
    for path in sorted(root.glob("*.rs")):
        text = path.read_text(encoding="utf-8")
        name = re.search(r'name: "([^"]+)"', text)
        if name:
            units = re.findall(r'(?:Unit::new\(\s*|symbol: )"([^"]+)"', text)
            yield name.group(1), units


def converted(kind, unit, canonical):
    if kind == "temperature":
        return REGISTRY.Quantity(NUMBER, MEANING[unit]).to(MEANING[canonical]).magnitude
    difference = {"°F": "delta_degF", "K": "kelvin"}
    meaning = difference if kind == "temperature difference" else MEANING
    one = lambda symbol: REGISTRY.parse_expression(meaning[symbol])
    return float((NUMBER * one(unit) / one(canonical)).to("dimensionless").magnitude)


def main():
    rows = [
        {"kind": kind, "unit": unit, "canonical": converted(kind, unit, units[0])}
        for kind, units in kinds()
        for unit in units
    ]
    repeat = [line for line in __doc__.splitlines() if "v/bin" in line]
    versions = {"python": platform.python_version(), "pint": pint.__version__}
    made = {"made_by": "tests/reference/unit_conversions.py", "repeat": repeat, "versions": versions}
    print(json.dumps({**made, "number": NUMBER, "rows": rows}, indent=1, ensure_ascii=False))


main()
