"""A platen on columns: closed forms against full equilibrium of every contact with Coulomb friction."""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from structcheck.analysis.guides import edge_lift, moment_of_springs, slide, tilt
from tests.printed import printed
from tests.reference.reading import case


def least_drive(load, load_at, drive_at, length, mu, columns=(0.0,), width=30.0):
    """The least drive over every way the contacts can bear; None where no drive whatever moves the platen.

    Unknown: the drive, and the force of each bush on its column at its two ends and two sides, each with its friction
    against the motion where it bears.
    """
    contacts = [(x, side, end) for x in columns for side in (-1, 1) for end in (-1, 1)]
    along = [1.0] + [-mu] * len(contacts)
    across = [0.0] + [float(-side) for _, side, _ in contacts]
    # Moment about the centre, of a force along at x and of a force across at half a bush from the middle.
    moment = [drive_at] + [-mu * (x + side * width / 2) + side * end * length / 2 for x, side, end in contacts]
    answer = linprog([1.0] + [0.0] * len(contacts), A_eq=[along, across, moment], b_eq=[load, 0.0, load * load_at])
    return answer.fun if answer.status == 0 else None


@given(
    drive_at=st.floats(-150, 150),
    load_at=st.floats(-150, 150),
    length=st.floats(60, 400),
    mu=st.floats(0.05, 0.5),
    width=st.floats(5, 80),
)
@settings(max_examples=50, deadline=None)
def test_one_column_against_full_equilibrium(drive_at, load_at, length, mu, width):
    """Drive and jam of one bush, load and drive anywhere; the width of the column drops out."""
    assume(abs(abs(2 * mu * drive_at) - length) > 1 and abs(drive_at - load_at) > 0.1)
    ours = slide(1.0, load_at, drive_at, length, mu)
    side = math.copysign(1.0, drive_at - load_at)
    assume(2 * mu * side * drive_at > -length)  # else the bush wedges the other way as well
    full = least_drive(1.0, load_at, drive_at, length, mu, width=width)
    assert (full is None) == math.isinf(ours.drive)
    if full is not None:
        assert ours.drive == pytest.approx(full, rel=1e-6)


@pytest.mark.parametrize("columns", [(0.0,), (-200.0, 200.0), (-250.0, -250.0, 250.0, 250.0)])
def test_the_spacing_of_the_columns_does_not_help(columns):
    """One, two or four columns bearing evenly need the same drive: only the length of the bush counts."""
    assert slide(1.0, 0.0, 40.0, 120.0, 0.35, columns).drive == pytest.approx(120 / (120 - 28))


def test_one_tight_bush_of_two_is_worse_than_the_ratio_says():
    """Where the far bush alone bears, the lever is its own distance from the drive: full equilibrium agrees."""
    columns, e, L, mu = (-200.0, 200.0), 15.0, 400.0, 0.35
    even = slide(1.0, 0.0, e, L, mu, columns)
    far = slide(1.0, 0.0, e, L, mu, columns, (1.0, 0.0))
    assert even.ratio == pytest.approx(2 * mu * e / L)
    assert far.ratio > even.ratio
    assert far.drive == pytest.approx(least_drive(1.0, 0.0, e, L, mu, (-200.0,)))
    assert math.isinf(slide(1.0, 0.0, e, 120.0, mu, columns, (1.0, 0.0)).drive)
    # Of all ways to bear, the least drive has the near bush bear alone; even bearing lies between.
    assert least_drive(1.0, 0.0, e, L, mu, columns) < even.drive < far.drive


def test_the_bracket_jams_at_the_published_distance():
    """GUIDE-01 Beer and Johnston (read): jams from 12 in, whatever the force, the pipe's diameter no matter."""
    i, expected = case("guides", "GUIDE-01")
    e = float(expected["e"])
    for width in (1.0, i["diameter"], 8.0):
        assert least_drive(1.0, 0.0, e * 1.001, i["L"], i["mu"], width=width) is None
        assert least_drive(1.0, 0.0, e * 0.999, i["L"], i["mu"], width=width) is not None
    assert math.isinf(slide(1.0, 0.0, e * 1.001, i["L"], i["mu"]).drive)
    assert slide(1.0, 0.0, e * 0.999, i["L"], i["mu"]).ratio == pytest.approx(0.999)


def test_shortest_bush():
    """GUIDE-02 (derived): at L = 2 mu e the drive is without limit."""
    i, expected = case("guides", "GUIDE-02")
    for mu, length in expected.items():
        jam = float(length)
        assert math.isinf(slide(1.0, 0.0, i["e"], jam - 0.01, float(mu)).drive)
        assert slide(1.0, 0.0, i["e"], jam + 0.01, float(mu)).drive > 1000


def test_a_central_drive_does_not_jam_on_an_offset_load():
    """Pressing with the ram in the middle only rubs; returning on a spring at the side is what jams."""
    pressing = slide(1.0, 300.0, 0.0, 120.0, 0.35)
    returning = slide(1.0, 0.0, 300.0, 120.0, 0.35)
    assert pressing.drive == pytest.approx(1 + 2 * 0.35 * 300 / 120)
    assert math.isinf(returning.drive)


def test_play_and_lean():
    """GUIDE-05 (derived): 0.5 mm in 120 mm is 0.2387 deg, 2.083 mm at the edge."""
    i, expected = case("guides", "GUIDE-05")
    assert math.degrees(tilt(i["c"], i["L"])) == printed(expected["tilt"])
    assert edge_lift(i["c"], i["L"], i["half_width"]) == printed(expected["edge"])


def test_springs_in_line_carry_no_tilt_and_springs_apart_do():
    """Moment of two springs 600 apart leaning by 0.01: k a^2 / 2 (derived)."""
    assert moment_of_springs([0.0, 0.0], [10.0, 10.0], 0.01) == 0
    assert moment_of_springs([-300.0, 300.0], [10.0, 10.0], 0.01) == pytest.approx(10 * 600**2 / 2 * 0.01)
    shifted = moment_of_springs(np.array([0.0, 600.0]), [10.0, 10.0], 0.01)
    assert shifted == pytest.approx(10 * 600**2 / 2 * 0.01)
