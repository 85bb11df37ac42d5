"""Plates welded between two beams under the jack."""

from dataclasses import replace

import pytest

from structcheck.analysis.beam import PointLoad, UniformLoad, solve
from structcheck.analysis.plate import Patch, Plate, solve_plate
from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis
from structcheck.checks.cross_plate import (
    NEEDED,
    CrossPlate,
    CrossPlateLoads,
    check_cross_plate,
    fixed_moment,
    pinned_moment,
)
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.standards import handbook_plates as plates

BASIS = Basis()
STEEL = find_steel("S235")
PART = CrossPlate("jack plate", 80.0, 140.0, 25.0, STEEL, 5.0, 8.0, 120.0, STEEL, inspected=True, height=60.0)


def cases(rated, pad=60.0):
    return [
        CrossPlateLoads(case, rated * factor, pad) for case, factor in ((RATED, 1.0), (GREATEST, 1.25), (ULTIMATE, 1.5))
    ]


def findings(part, loads):
    return {f.check: f for f in check_cross_plate(part, loads, BASIS).findings}


def test_both_bounds_are_statics_of_the_beam():
    """Pinned and fixed moments agree with the exact beam under a spread load and a point load."""
    for pad, lines in ((0.0, [PointLoad(1e4, 40.0)]), (60.0, [UniformLoad(1e4 / 60, 10.0, 70.0)])):
        load = CrossPlateLoads(ULTIMATE, 1e4, pad)
        assert pinned_moment(PART, load) == pytest.approx(float(solve(80.0, "simple", lines, 1e10).M(40.0)))
        assert fixed_moment(PART, load) == pytest.approx(-float(solve(80.0, "fixed", lines, 1e10).moment_left))


def test_every_part_of_the_path_is_judged():
    """Plate by the pinned moment, weld by shear and the couple of the fixed moment, web by the same moment."""
    found = findings(PART, cases(4e4))
    assert tuple(found) == NEEDED
    load = cases(4e4)[2]
    length = 140 - 2 * 5
    down, out = 6e4 / 4 / length, fixed_moment(PART, load) / 25 / length
    assert found["weld throat"].demand.value == pytest.approx((down**2 + out**2) ** 0.5)
    assert found["weld throat"].capacity.value == pytest.approx(5 * 360 / 3**0.5 / 0.8 / 1.25)
    assert found["bending"].demand.value == pytest.approx(pinned_moment(PART, load))
    assert found["wall bending"].demand.value == pytest.approx(fixed_moment(PART, load) / 2)


def test_a_run_on_one_side_is_not_checked():
    """Bent about its root: never a pass (4.12); neither is a weld on steel nobody knows to be weldable."""
    assert findings(replace(PART, both=False), cases(1e3))["weld throat"].verdict == "not checked"
    unknown = find_steel("unknown")
    assert findings(replace(PART, wall_steel=unknown), cases(1e3))["weld throat"].verdict == "not checked"
    assert findings(replace(PART, throat=2.5), cases(1e3))["weld throat"].verdict == "not checked"


def test_welds_not_inspected_count_seventy_percent():
    """And the assumption says so."""
    outcome = check_cross_plate(replace(PART, inspected=False), cases(4e4), BASIS)
    looked = findings(PART, cases(4e4))["weld throat"].capacity.value
    assert next(f for f in outcome.findings if f.check == "weld throat").capacity.value == pytest.approx(0.7 * looked)
    assert any("not inspected" in a.text for a in outcome.assumptions)


@pytest.mark.parametrize("height", [30.0, 60.0, 100.0])
@pytest.mark.parametrize("along", [40.0, 140.0])
def test_the_web_bends_less_than_the_strip_says(height, along):
    """A couple on lines 25 apart in a web 120 deep, pinned or clamped at the flanges, by plate elements."""
    strip = plates.wall_moment(max(height, 120 - height) / 120, along)
    for how in ("simple", "clamped"):
        web = Plate(
            720 + along, 120.0, 8.0, dict.fromkeys(("lower", "upper"), how) | dict.fromkeys(("left", "right"), "simple")
        )
        lines = [Patch(p / 25, (720 + along) / 2, height + p * 12.5, along, 0.0) for p in (-1, 1)]
        assert solve_plate(web, lines, (40, 16)).greatest_moment <= strip


def test_a_plate_of_no_known_height_takes_the_worst():
    """All of the end's moment on one side of the web."""
    known, unknown = findings(PART, cases(4e4)), findings(replace(PART, height=None), cases(4e4))
    assert unknown["wall bending"].demand.value == pytest.approx(2 * known["wall bending"].demand.value)


def test_the_twist_of_the_beams_is_said():
    """Half the force at the shear centre's distance, or that it is not known."""
    outcome = check_cross_plate(replace(PART, to_centre=30.0), cases(4e4), BASIS)
    assert outcome.answers == ("jack plate: twists each beam by 0.6 kN m at rated unless ties hold it",)
    assert "not stated" in check_cross_plate(PART, cases(4e4), BASIS).answers[0]


def test_nonsense_is_refused():
    """A gap of nothing, a plate above the web."""
    with pytest.raises(InputError) as error:
        check_cross_plate(replace(PART, gap=0.0, height=200.0), [], BASIS)
    assert [p.key for p in error.value.problems] == ["gap", "height"]
