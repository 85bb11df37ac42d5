"""Foot plates: T-stubs in compression by hand and by counting squares, friction, and what is left to anchors."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import linprog

from structcheck.checks.base_plate import NEEDED, BasePlate, BasePlateLoads, check_base_plate
from structcheck.checks.base_plate_area import pressed_area, pressed_sides
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
        ({"concrete": 200.0}, "at most 90 MPa"),
    ],
)
def test_a_plate_that_cannot_be_is_refused(keys, words):
    """Key and reason."""
    with pytest.raises(InputError, match=words):
        outcome(replace(FOOT, **keys), push=1e3)


def test_other_shapes_and_steels_are_not_checked():
    """An angle is none of the shapes; a channel bent across its depth has no two like sides; S185."""
    angle = replace(FOOT, section=look_up("L 80x80x8").section)
    assert "to an engineer" in answer(angle, push=1e3)["bearing under the plate"].reason.replace("ask an", "to an")
    channel = replace(FOOT, section=look_up("UPN 140").section)
    assert answer(channel, push=1e3)["bearing under the plate"].verdict == "holds"
    bent = answer(channel, push=1e3, across=1e3)
    assert bent["bearing under the plate"].verdict == bent["anchors"].verdict == "not checked"
    assert answer(replace(FOOT, steel=find_steel("S185")), push=1e3)["bearing under the plate"].verdict == "not checked"


# ---- channels, bars and several pieces ---------------------------------------------------------


def most_pressed(section, c, length, width):
    """The greatest area within c of a wall, on the plate, whose middle lies under the centre: linear programming."""
    shape, left = section.shape, section.edges[0]
    step = 0.25
    x = np.arange(-length / 2 + step / 2, length / 2, step)[:, None]
    middle = sum(section.edges[:2]) / 2
    y = np.arange(middle - width / 2 + step / 2, middle + width / 2, step)[None, :]
    h, b, tf, tw = shape.h / 2, shape.b, shape.tf, shape.tw
    inside = (np.abs(x) <= h + c) & (y >= left - c) & (y <= left + b + c)
    near = inside & ((np.abs(x) >= h - tf - c) | (y <= left + tw + c))
    columns = near.sum(axis=0) * step**2
    found = linprog(-columns, A_eq=[columns * y[0]], b_eq=[0.0], bounds=(0, 1))
    return -found.fun


@pytest.mark.parametrize("name", ["UPN 80", "UPN 140", "UPE 160"])
@pytest.mark.parametrize(("c", "size"), [(12.0, 400.0), (40.0, 400.0), (40.0, 180.0), (3.0, 200.0)])
def test_a_channel_presses_evenly_about_its_centre(name, c, size):
    """The best of all areas that do, found independently (derived)."""
    section = look_up(name).section
    assert pressed_area(section, c, size, size) == pytest.approx(most_pressed(section, c, size, size), rel=0.02)


def test_a_channel_bent_along_its_depth_presses_a_flange():
    """Side about the centre: lever h - t_f, twice the smaller reach from it wide (derived)."""
    section = look_up("UPN 140").section
    along, across = pressed_sides(section, 20.0, 400.0, 400.0)
    assert across is None and along.lever == 140 - 10
    assert along.area == pytest.approx((10 + 40) * 2 * (-section.edges[0] + 20))


def test_a_bar_presses_as_a_wall():
    """80 x 10 with c on every side; half of it under a moment along it, the halves' middles 40 mm apart (derived)."""
    flat = replace(FOOT, section=look_up("FL 80x10").section)
    plain = answer(flat, push=30e3)["bearing under the plate"]
    assert plain.capacity.value == pytest.approx(F_JD * (80 + 2 * C) * (10 + 2 * C))
    bent = answer(flat, push=30e3, moment=2e5)["bearing under the plate"]
    half = F_JD * (40 + C) * (10 + 2 * C)
    assert bent.utilisation == pytest.approx(1.5 * (15e3 + 2e5 / 40) / half)


def test_pieces_side_by_side_push_and_pull_against_a_moment():
    """Two flats 60 mm apart, centres 70: N / 2 + M / 70 on the strip of plate under one (derived)."""
    one = replace(FOOT, section=look_up("FL 80x10").section)
    two = replace(one, pieces=2, apart=60.0)
    found = answer(two, push=60e3, across=1e6)["bearing under the plate"]
    alone = answer(replace(one, width=70.0), push=30e3 + 1e6 / 70)["bearing under the plate"]
    assert found.demand.value == pytest.approx(alone.demand.value)
    assert found.capacity.value == pytest.approx(alone.capacity.value)
    assert "anchors" not in answer(two, push=60e3, across=0.99 * 30e3 * 70)
    assert answer(two, push=60e3, across=1.01 * 30e3 * 70)["anchors"].verdict == "not checked"
    assert "`apart`" in answer(replace(two, apart=None), push=1e3)["bearing under the plate"].reason


# ---- fillets -----------------------------------------------------------------------------------


def test_the_fillets_carry_the_whole_push():
    """HEA 140, 4 mm along every wall less the ends of each run: 207.8 N/mm2 x 4 (4.5.3.3, derived)."""
    found = answer(replace(FOOT, throat=4.0, inspected=True), push=60e3)
    length = 2 * (140 - 8) + 4 * ((140 - 5.5 - 24) / 2 - 8) + 2 * (133 - 17 - 24 - 8)
    assert found["weld throat"].capacity.value == pytest.approx(360 / math.sqrt(3) / 0.8 / 1.25 * 4 * length)
    assert found["weld throat"].demand.value == pytest.approx(90e3)
    assert {found[check].verdict for check in ("weld size", "fatigue")} == {"holds"}


def test_fillets_round_a_tube_feel_moment_and_shear():
    """CHS 114.3 x 5: N / (2 pi r a) + M / (pi r^2 a), and V / (2 pi r a) square to both (thin ring, derived)."""
    tube = replace(FOOT, section=look_up("CHS 114.3x5 hot").section, throat=4.0, inspected=True)
    found = answer(tube, push=60e3, moment=2e6, shear=9e3)["weld throat"]
    r, a = 114.3 / 2, 4.0
    bent = 60e3 / (2 * math.pi * r * a) + 2e6 / (math.pi * r**2 * a)
    felt = math.hypot(bent, 9e3 / (2 * math.pi * r * a))
    assert found.utilisation == pytest.approx(1.5 * felt / (360 / math.sqrt(3)), rel=1e-3)


def test_fillets_not_stated_are_a_condition_and_never_a_pass():
    """Nor are those on an outline that is not followed."""
    assert any("fillets between foot" in a.condition for a in outcome(FOOT, push=1e3).assumptions)
    angle = replace(FOOT, section=look_up("L 80x80x8").section, throat=4.0)
    assert answer(angle, push=1e3)["weld throat"].verdict == "not checked"
    with pytest.raises(InputError, match="both given"):
        outcome(replace(FOOT, throat=4.0, leg=6.0), push=1e3)


def test_a_channels_fillets_feel_the_push_beside_their_middle():
    """Its centre of area is not that of the outline: more than the plain share, and shear twists the runs."""
    channel = replace(FOOT, section=look_up("UPN 140").section, throat=4.0, inspected=True)
    plain, sheared = (answer(channel, push=60e3, shear=v)["weld throat"] for v in (0.0, 9e3))
    assert sheared.utilisation > plain.utilisation > 0


def test_cautions_of_any_weld_hold_for_these_fillets():
    """Cold-formed corners (4.14) until killed; a thick plate through its thickness only where a side is lifted."""

    def conditions(part, **loads):
        return [a.condition for a in outcome(part, **loads).assumptions if a.condition]

    tube = replace(FOOT, section=look_up("SHS 100x100x5 cold").section, throat=4.0)
    assert conditions(tube, push=60e3) == ["SHS 100x100x5 is of aluminium-killed steel, J2H or K2H"]
    assert conditions(replace(tube, killed=True), push=60e3) == []
    thick = replace(FOOT, thickness=25.0, throat=4.0)
    assert conditions(thick, push=60e3) == []
    assert any("free of layers" in text for text in conditions(thick, push=-10e3))
