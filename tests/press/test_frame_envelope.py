"""What is kept of many internal forces: nothing that could govern is dropped."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as arrays

from structcheck.analysis.frame import PointOnMember, SpreadOnMember, solve
from structcheck.press.frame.envelope import Combination, cleaned, governing, levelled, sample
from structcheck.press.frame.lines import lines_of
from structcheck.press.frame.off_centre import Position
from tests.analysis.frame_cases import case, ring
from tests.press.frames import ORCHARD, ORCHARD_JACK, answer

ROWS = arrays.arrays(float, st.tuples(st.integers(1, 30), st.just(6)), elements=st.integers(-5, 5).map(float))
SIGNED = (0, 4)
GIVEN = case("FR-01")[0]


@settings(max_examples=50, deadline=None)
@given(ROWS)
def test_every_row_is_outdone_by_one_that_is_kept(values):
    """At least as large in every component, with the same sign where signs matter, torsion not set against none."""
    kept = values[governing(values, SIGNED, apart=3)]
    for row in values:
        larger = (np.abs(kept) >= np.abs(row)).all(axis=1)
        signs = all_signs(kept, row)
        apart = (kept[:, 3] != 0) == (row[3] != 0)
        assert (larger & signs & apart).any()


def all_signs(kept: np.ndarray, row: np.ndarray) -> np.ndarray:
    """Which kept rows have the signs of a row, or the row has nothing there."""
    signed = list(SIGNED)
    return ((np.sign(kept[:, signed]) == np.sign(row[signed])) | (row[signed] == 0)).all(axis=1)


def test_samples_hold_both_sides_of_every_jump_and_every_end():
    """A point force jumps the shear force, a spread one nothing: each place is there with all it carries."""
    loads = [PointOnMember("head", 300.0, (0.0, 0.0, 1.0)), SpreadOnMember("head", (0.0, 0.0, 0.002), 400.0, 600.0)]
    result = solve(ring(GIVEN, area=6000.0, shear=3000.0), {"": loads})
    lines, one = lines_of(result), [Combination(Position("", (), ()), "", np.ones(1))]
    rows = sample(lines, "head", one, np.ones((1, 1)))
    for x in result.stations("head"):
        here = rows.values[np.abs(rows.where - x) < 1e-9]
        for side in ("left", "right"):
            wanted = cleaned(lines.at("head", x, side)[:, 0])
            assert min(np.abs(here - wanted).max(axis=1)) < 1e-9 * max(1.0, np.abs(wanted).max())
            assert lines.around(4, "head", np.array([x]))[int(side == "right"), 0, 0] == lines.at("head", x, side)[4, 0]
    assert np.sum(np.abs(rows.where - 300.0) < 1e-9) == 2


@settings(max_examples=50, deadline=None)
@given(ROWS)
def test_levelling_never_lowers_a_component(values):
    """Small forces are raised to the largest of them; nothing else moves."""
    weights = np.array([0.001, 1.0, 0.001, 1.0, 1.0, 1.0])
    raised = levelled(values, weights)
    assert (np.abs(raised) >= np.abs(values)).all()
    assert (raised[:, [1, 3, 4, 5]] == values[:, [1, 3, 4, 5]]).all()


def test_twice_the_jack_is_twice_every_demand():
    """All demands of a frame are linear in the force."""
    one, two = (answer(ORCHARD, ORCHARD_JACK | {"rating": text}) for text in ("8 t", "16 t"))
    for part, rows in one.stations.items():
        for row, other in zip(rows, two.stations[part], strict=True):
            for name in ("N", "V_y", "V_z", "T", "M_y", "M_z", "T_w", "B"):
                assert np.isclose(getattr(other, name), 2 * getattr(row, name), rtol=1e-9, atol=1e-6)


def test_a_frame_and_its_mirror_image_carry_the_same():
    """Left and right change places and nothing else: worst moments of the two uprights agree."""
    got = answer(ORCHARD, ORCHARD_JACK)
    for limit in ("ultimate", "greatest force", "rated"):
        worst = [
            max(abs(row.M_y) for row in got.stations[f"{side} upright"] if row.case.limit == limit)
            for side in ("left", "right")
        ]
        assert np.isclose(*worst, rtol=1e-9)
