"""Check cases of tests/reference/frames.toml, and the few frames that many tests build."""

import tomllib
from itertools import pairwise
from pathlib import Path

import pytest

from structcheck.analysis.frame import RIGID, Frame, Member, PointOnMember, Support

REFERENCE = Path(__file__).resolve().parent.parent / "reference" / "frames.toml"
CASES = {case["id"]: case for case in tomllib.loads(REFERENCE.read_text(encoding="utf-8"))["case"]}

E, G = 210000.0, 210000.0 / 2.6


def case(name):
    """Inputs, expected values and relative tolerance of one case."""
    found = CASES[name]
    return found["inputs"], found["expected"], found["tolerance"]


def close(value, tolerance):
    """Equal within a relative tolerance."""
    return pytest.approx(value, rel=tolerance)


def member(name, start, end, inertia, area=1e4, shear=None, **more):
    """A member of equal stiffness both ways."""
    given = {"E": E, "G": G, "A": area, "Iy": inertia, "Iz": inertia, "J": inertia, "Asy": shear, "Asz": shear}
    return Member(name, start, end, **(given | more))


def straight(length, supports, inertia, places=(), shear=None, springs=(), **more):
    """A beam along x in the x-z plane, cut at `places`, held by `supports` (position -> Support arguments)."""
    stops = sorted({0.0, float(length), *map(float, places)})
    nodes = {f"{x:g}": (x, 0.0, 0.0) for x in stops}
    names = list(nodes)
    members = [
        member(f"beam {k + 1}", start, end, inertia, shear=shear, **more)
        for k, (start, end) in enumerate(pairwise(names))
    ]
    held = [Support(f"{x:g}", *given) for x, given in supports.items()]
    return Frame(nodes, members, held, springs, plane="xz")


def ring(inputs, area=1e10, shear=None, joint=RIGID, offset=None):
    """A closed press frame of two beams and two uprights, feet on the floor; `joint` is the head's left end."""
    L, h = inputs["L"], inputs["h"]
    nodes = {"bed left": (0, 0, 0), "bed right": (L, 0, 0), "head left": (0, 0, h), "head right": (L, 0, h)}
    beam, upright = inputs["I_beam"], inputs["I_upright"]
    members = [
        member("bed", "bed left", "bed right", beam, area, shear),
        member("head", "head left", "head right", beam, area, shear, at_start=joint),
        member("left", "bed left", "head left", upright, area, shear),
        member("right", "bed right", "head right", upright, area, shear),
    ]
    return Frame(nodes, members, [Support("bed left", "x z"), Support("bed right", "z")], plane="xz")


def jack(force, at):
    """The jack's pair: up on the head, down on the bed."""
    return [PointOnMember("head", at, (0, 0, force)), PointOnMember("bed", at, (0, 0, -force))]
