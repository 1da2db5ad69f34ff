"""Cross-sections of joints by polygon geometry, to compare the formulas of src/trade/joint with.

Nothing here uses those formulas: plates are drawn as polygons, the weld is what lies between them.

Repeat: python -m venv v && v/bin/pip install shapely==2.2.0 numpy==2.4.6
        v/bin/python tests/reference/joint_areas.py > tests/reference/joint_areas.json
"""

import json
import math
import platform
import random

import numpy
import shapely
from shapely.affinity import scale
from shapely.geometry import LineString, Point, Polygon, box

FAR = 1000.0
ROUND = 1 << 14  # straight pieces in a quarter circle


def half_plane(x, y, dx, dy):
    """Everything to the right of a line through (x, y) along (dx, dy)."""
    n = math.hypot(dx, dy)
    dx, dy = dx / n * FAR, dy / n * FAR
    rx, ry = dy, -dx
    a, b = (x - dx, y - dy), (x + dx, y + dy)
    return Polygon([a, b, (b[0] + rx, b[1] + ry), (a[0] + rx, a[1] + ry)])


def width_at(shape, y):
    """Width of a shape just below a height."""
    cut = shape.intersection(LineString([(-FAR, y), (FAR, y)]))
    return cut.bounds[2] - cut.bounds[0]


def right_plate(t, gap, depth, beta, radius=None):
    """Plate on the right, prepared from above; y = 0 is the root, y = t the face."""
    plate = box(gap / 2, 0, FAR, t)
    floor = t - depth
    cut = half_plane(gap / 2, floor, math.sin(beta), math.cos(beta))  # keep right of the wall
    if radius is None:
        kept = plate.intersection(cut)
        below = box(gap / 2, 0, FAR, floor) if floor > 0 else Polygon()
        return kept.union(below)
    # Round bottom: circle that touches the level of the root face at its edge.
    centre = (gap / 2, floor + radius)
    circle = Point(centre).buffer(radius, quad_segs=ROUND)
    touch = (centre[0] + radius * math.cos(beta), centre[1] - radius * math.sin(beta))
    outside_wall = half_plane(*touch, math.sin(beta), math.cos(beta))
    removed_round = circle.intersection(box(gap / 2, floor, FAR, touch[1]))
    removed_wall = box(gap / 2, touch[1], FAR, t).difference(outside_wall)
    return plate.difference(removed_round).difference(removed_wall)


def mirrored(shape):
    return scale(shape, xfact=-1, yfact=1, origin=(0, 0))


def flipped(shape, t):
    return scale(shape, xfact=1, yfact=-1, origin=(0, t / 2))


def groove(t, gap, right, left=None):
    """What lies between two plates from root to face."""
    left = mirrored(right) if left is None else left
    return box(-FAR / 2, 0, FAR / 2, t).difference(right).difference(left)


def square_edge(t, gap):
    return box(-FAR, 0, -gap / 2, t)


def weld(case):
    k, d = case["kind"], case
    rad = lambda name: math.radians(d[name])
    if k == "square":
        return groove(d["t"], d["gap"], box(d["gap"] / 2, 0, FAR, d["t"]))
    if k in ("single-vee", "vee-on-backing"):
        depth = d["t"] - d.get("face", 0)
        return groove(d["t"], d["gap"], right_plate(d["t"], d["gap"], depth, rad("angle") / 2))
    if k == "single-bevel":
        right = right_plate(d["t"], d["gap"], d["t"] - d["face"], rad("angle"))
        return groove(d["t"], d["gap"], right, square_edge(d["t"], d["gap"]))
    if k == "single-u":
        right = right_plate(d["t"], d["gap"], d["t"] - d["face"], rad("angle"), d["radius"])
        return groove(d["t"], d["gap"], right)
    if k == "single-j":
        right = right_plate(d["t"], d["gap"], d["t"] - d["face"], rad("angle"), d["radius"])
        return groove(d["t"], d["gap"], right, square_edge(d["t"], d["gap"]))
    if k in ("double-vee", "double-bevel"):
        half = 2 if k == "double-vee" else 1
        near = right_plate(d["t"], d["gap"], d["depth"], rad("angle") / half)
        far = flipped(right_plate(d["t"], d["gap"], d["far_depth"], rad("far_angle") / half), d["t"])
        right = near.intersection(far)
        left = None if k == "double-vee" else square_edge(d["t"], d["gap"])
        return groove(d["t"], d["gap"], right, left)
    if k in ("double-u", "double-j"):
        near = right_plate(d["t"], d["gap"], d["depth"], rad("angle"), d["radius"])
        far = right_plate(d["t"], d["gap"], d["far_depth"], rad("far_angle"), d["far_radius"])
        right = near.intersection(flipped(far, d["t"]))
        left = None if k == "double-u" else square_edge(d["t"], d["gap"])
        return groove(d["t"], d["gap"], right, left)
    if k == "fillet":
        return fillet(d)
    raise ValueError(k)


def fillet(d):
    psi, a, b = math.radians(d["angle"]), d["leg"] + d["gap"], d["other_leg"] + d["gap"]
    p, q = (a, 0.0), (b * math.cos(psi), b * math.sin(psi))
    triangle = Polygon([(0, 0), p, q])
    if d["face"] == "flat":
        return triangle
    c, h = math.dist(p, q), d["height"]
    middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    # Unit vector away from the root.
    normal = ((q[1] - p[1]) / c, -(q[0] - p[0]) / c)
    if normal[0] * middle[0] + normal[1] * middle[1] < 0:
        normal = (-normal[0], -normal[1])
    if d["face"] == "convex-parabola":
        along = ((q[0] - p[0]) / c, (q[1] - p[1]) / c)
        points = []
        for i in range(20001):
            s = i / 20000
            up = 4 * h * s * (1 - s)
            points.append((p[0] + along[0] * c * s + normal[0] * up,
                           p[1] + along[1] * c * s + normal[1] * up))
        return triangle.union(Polygon(points))
    radius = (c * c / 4 + h * h) / (2 * h)
    sign = 1 if d["face"] == "convex" else -1
    out = sign * (h - radius)
    centre = (middle[0] + normal[0] * out, middle[1] + normal[1] * out)
    start = math.atan2(p[1] - centre[1], p[0] - centre[0])
    turn = math.atan2(q[1] - centre[1], q[0] - centre[0]) - start
    turn = (turn + math.pi) % (2 * math.pi) - math.pi  # the short way round
    bulge = Polygon([(centre[0] + radius * math.cos(start + turn * i / 20000),
                      centre[1] + radius * math.sin(start + turn * i / 20000))
                     for i in range(20001)])
    return triangle.union(bulge) if sign > 0 else triangle.difference(bulge)


def cases():
    f = lambda leg, other, angle, gap=0.0, face="flat", height=0.0: dict(
        kind="fillet", leg=leg, other_leg=other, angle=angle, gap=gap, face=face, height=height)
    yield f(6, 6, 90)
    yield f(8, 6, 90)
    yield f(6, 6, 60)
    yield f(6, 6, 120)
    yield f(6, 6, 90, face="convex", height=1)
    yield f(8, 8, 90, face="convex", height=1.5)
    yield f(6, 6, 90, face="convex-parabola", height=1)
    yield f(8, 8, 90, face="convex-parabola", height=1.5)
    yield f(10, 7, 75, face="concave", height=1.2)
    yield f(8, 8, 90, gap=2)
    yield dict(kind="square", t=6, gap=2)
    for t, g, r, a in [(12, 3, 2, 60), (20, 2, 2, 60), (10, 2, 1, 60)]:
        yield dict(kind="single-vee", t=t, gap=g, face=r, angle=a)
    yield dict(kind="vee-on-backing", t=20, gap=6, angle=45)
    yield dict(kind="single-bevel", t=12, gap=3, face=2, angle=45)
    yield dict(kind="single-bevel", t=20, gap=2, face=1, angle=50)
    yield dict(kind="double-vee", t=25, gap=2, depth=11.5, angle=60, far_depth=11.5, far_angle=60)
    yield dict(kind="double-vee", t=25, gap=2, depth=46 / 3, angle=60, far_depth=23 / 3, far_angle=60)
    yield dict(kind="double-bevel", t=25, gap=3, depth=11.5, angle=45, far_depth=11.5, far_angle=45)
    yield dict(kind="single-u", t=30, gap=2, face=2, radius=6, angle=10)
    yield dict(kind="single-u", t=25, gap=1, face=3, radius=5, angle=20)
    yield dict(kind="single-j", t=25, gap=2, face=2, radius=8, angle=20)
    draw = random.Random(20260117)
    u = lambda low, high: round(draw.uniform(low, high), 3)
    for _ in range(6):
        t, g = u(8, 60), u(0.5, 6)
        yield f(u(3, 15), u(3, 15), u(50, 130), u(0, 2), draw.choice(["convex", "concave"]), u(0.1, 0.9))
        yield dict(kind="single-vee", t=t, gap=g, face=u(0, 4), angle=u(10, 90))
        yield dict(kind="single-bevel", t=t, gap=g, face=u(0, 4), angle=u(10, 60))
        yield dict(kind="single-u", t=t, gap=g, face=u(0, 2), radius=u(1, 5), angle=u(0, 30))
        yield dict(kind="single-j", t=t, gap=g, face=u(0, 2), radius=u(1, 5), angle=u(0, 30))
        yield dict(kind="double-vee", t=t, gap=g, depth=round(t * u(0.2, 0.55), 3), angle=u(30, 90),
                   far_depth=round(t * u(0.1, 0.4), 3), far_angle=u(30, 90))
        yield dict(kind="double-bevel", t=t, gap=g, depth=round(t * u(0.2, 0.55), 3), angle=u(20, 60),
                   far_depth=round(t * u(0.1, 0.4), 3), far_angle=u(20, 60))
    draw.seed(20260209)
    for kind in ["double-u", "double-j"] * 6:
        t = u(20, 80)
        yield dict(kind=kind, t=t, gap=u(0.5, 6), depth=round(t * u(0.3, 0.55), 3), radius=u(1, 6),
                   angle=u(0, 30), far_depth=round(t * u(0.3, 0.4), 3), far_radius=u(1, 6),
                   far_angle=u(0, 30))


def measured(case):
    shape = weld(case)
    out = dict(case, area_mm2=shape.area)
    if case["kind"] == "fillet":
        psi = math.radians(case["angle"])
        a, b = case["leg"] + case["gap"], case["other_leg"] + case["gap"]
        out["face_width_mm"] = Point(a, 0).distance(Point(b * math.cos(psi), b * math.sin(psi)))
    else:
        out["face_width_mm"] = width_at(shape, case["t"])
    if "far_depth" in case:
        out["far_face_width_mm"] = width_at(shape, 0)
    return out


print(json.dumps({
    "made_by": "tests/reference/joint_areas.py",
    "repeat": __doc__.split("Repeat: ")[1].strip().split("\n"),
    "versions": {"python": platform.python_version(), "shapely": shapely.__version__,
                 "geos": shapely.geos_version_string, "numpy": numpy.__version__},
    "units": "mm, degrees, mm2",
    "cases": [measured(case) for case in cases()],
}, indent=1))
