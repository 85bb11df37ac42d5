"""Foot plates: T-stubs in compression by hand and by counting squares, friction, and what is left to anchors."""

import math
from dataclasses import replace

import numpy as np
import pytest

from structcheck.checks.base_plate import NEEDED, BasePlate, BasePlateLoads, check_base_plate
from structcheck.checks.basis import Basis, from_rated
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up
from tests.printed import printed

BASIS = Basis()
S235 = find_steel("S235")
FOOT = BasePlate(
    name="foot",
    section=look_up("HEA 140").section,
    steel=S235,
    length=240.0,
    width=240.0,
    thickness=12.0,
    concrete=20.0,
)
F_JD = 2 / 3 * 0.85 * 20 / 1.5
C = 12 * math.sqrt(235 / (3 * F_JD))


def outcome(part, push=0.0, moment=0.0, across=0.0, shear=0.0):
    loads = from_rated(BASIS, lambda case, f: BasePlateLoads(case, push * f, moment * f, across * f, shear * f))
    return check_base_plate(part, loads, BASIS)


def answer(part, **loads):
    return {f.check: f for f in outcome(part, **loads).findings}


def counted(part, c):
    """Pressed area by squares of half a millimetre: on the plate and within c of a wall of the member."""
    shape = part.section.shape
    x = np.arange(-part.length / 2 + 0.25, part.length / 2, 0.5)[:, None]
    y = np.arange(-part.width / 2 + 0.25, part.width / 2, 0.5)[None, :]
    if hasattr(shape, "D"):
        r = np.hypot(x, y)
        near = (r <= shape.D / 2 + c) & (r >= shape.D / 2 - shape.t - c)
    elif hasattr(shape, "tf"):
        flanges = (np.abs(np.abs(x) - (shape.h - shape.tf) / 2) <= shape.tf / 2 + c) & (np.abs(y) <= shape.b / 2 + c)
        near = flanges | ((np.abs(x) <= shape.h / 2) & (np.abs(y) <= shape.tw / 2 + c))
    else:
        outer = (np.abs(x) <= shape.h / 2 + c) & (np.abs(y) <= shape.b / 2 + c)
        near = outer & ~((np.abs(x) < shape.h / 2 - shape.t - c) & (np.abs(y) < shape.b / 2 - shape.t - c))
    return float(near.sum()) * 0.25


# EN 1993-1-8:2005 (6.4) to (6.6) and EN 1992-1-1 (3.15) (memory); the area counted (derived).
@pytest.mark.parametrize(
    ("section", "plate", "thickness"),
    [
        ("HEA 140", (240.0, 240.0), 12.0),
        ("HEA 140", (240.0, 240.0), 20.0),
        ("HEA 140", (150.0, 145.0), 12.0),
        ("IPE 200", (220.0, 160.0), 8.0),
        ("SHS 100x100x5 cold", (220.0, 220.0), 6.0),
        ("RHS 100x60x5 cold", (120.0, 70.0), 6.0),
        ("CHS 114.3x5 hot", (300.0, 300.0), 8.0),
    ],
)
def test_the_pressed_area_is_that_of_the_walls_widened_by_c(section, plate, thickness):
    """No area twice, none beyond the plate."""
    length, width = plate
    part = replace(FOOT, section=look_up(section).section, length=length, width=width, thickness=thickness)
    c = thickness * math.sqrt(235 / (3 * F_JD))
    found = answer(part, push=50e3)["bearing under the plate"]
    assert found.capacity.value == pytest.approx(F_JD * counted(part, c), rel=0.01)


def test_the_plate_beyond_the_member_yields_where_it_ceases_to_press():
    """A strip c long under f_jd: f_jd c^2 / 2 is its elastic moment t^2 f_y / 6 (derived)."""
    assert pytest.approx(12**2 * 235 / 6) == F_JD * C**2 / 2
    assert pytest.approx(7.556, abs=1e-3) == F_JD
    assert printed("38.6") == C


def test_a_moment_presses_one_side_by_hand():
    """N / 2 + M / (h - t_f) on the flange's T-stub, 8.5 + 2 c deep and 140 + 2 c wide (6.2.8.2, derived)."""
    found = answer(FOOT, push=60e3, moment=1e6)["bearing under the plate"]
    area = (8.5 + 2 * C) * (140 + 2 * C)
    assert found.utilisation == pytest.approx(1.5 * (30e3 + 1e6 / 124.5) / (F_JD * area))
    assert "anchors" not in answer(FOOT, push=60e3, moment=1e6)


def test_a_lifted_side_is_no_pass():
    """Beyond M = N (h - t_f) / 2, and under any pull, the anchors carry: never judged."""
    edge = 60e3 / 2 * 124.5
    assert "anchors" not in answer(FOOT, push=60e3, moment=0.99 * edge)
    lifted = answer(FOOT, push=60e3, moment=1.01 * edge)["anchors"]
    assert lifted.verdict == "not checked"
    assert "what holds it down" in lifted.reason
    assert answer(FOOT, push=-10e3)["anchors"].verdict == "not checked"
    assert answer(FOOT, push=60e3, across=3e6)["anchors"].verdict == "not checked"


def test_shear_goes_by_friction_or_is_open():
    """A fifth of the push (6.2.2(6)); more is left to anchors."""
    found = answer(FOOT, push=60e3, shear=10e3)["shear under the plate"]
    assert found.utilisation == pytest.approx(10 / 12)
    assert answer(FOOT, push=60e3, shear=13e3)["shear under the plate"].verdict == "not checked"
    assert "shear under the plate" not in answer(FOOT, push=60e3)


def test_twice_the_actions_use_twice_as_much():
    """Push and both moments; friction grows with the push, so no load brings shear nearer to it."""
    one = answer(FOOT, push=40e3, moment=4e5, across=2e5, shear=4e3)
    two = answer(FOOT, push=80e3, moment=8e5, across=4e5, shear=8e3)
    for check in ("bearing under the plate", "yield at greatest force"):
        assert two[check].utilisation == pytest.approx(2 * one[check].utilisation), check
    assert two["shear under the plate"].utilisation == pytest.approx(one["shear under the plate"].utilisation)


def test_on_steel_it_presses_as_hard_as_steel_bears():
    """The strength of the thickest bed counts; that something stiff is below is a condition."""
    on_steel = replace(FOOT, concrete=None, bed=S235)
    capacity = answer(on_steel, push=60e3)["bearing under the plate"].capacity.value
    f_jd = S235.steps[-1][1]
    c = 12 * math.sqrt(235 / (3 * f_jd))
    assert capacity / counted(on_steel, c) == pytest.approx(f_jd, rel=0.02)
    assert any("solid steel" in a.condition for a in outcome(on_steel, push=60e3).assumptions)


def test_every_needed_check_has_an_answer():
    """A finding, or a reason that it does not apply."""
    given = outcome(FOOT, push=60e3)
    assert {f.check for f in given.findings} | {n.check for n in given.does_not_apply} == set(NEEDED)


@pytest.mark.parametrize(
    ("keys", "words"),
    [
        ({"length": 120.0}, "is less than the member on it"),
        ({"concrete": None}, "is missing"),
        ({"bed": S235}, "stands beside bed_steel"),
        ({"concentration": 4.0}, "is out of range"),
        ({"concrete": 0.0}, "must be above zero"),
    ],
)
def test_a_plate_that_cannot_be_is_refused(keys, words):
    """Key and reason."""
    with pytest.raises(InputError, match=words):
        outcome(replace(FOOT, **keys), push=1e3)


def test_other_shapes_and_steels_are_not_checked():
    """A channel is no I and no tube; S185 is outside EN 1993."""
    channel = replace(FOOT, section=look_up("UPN 140").section)
    assert answer(channel, push=1e3)["bearing under the plate"].verdict == "not checked"
    assert answer(replace(FOOT, steel=find_steel("S185")), push=1e3)["bearing under the plate"].verdict == "not checked"
