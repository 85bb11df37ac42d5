"""Fillets laid in stretches: what they carry, how far apart they may stand, and what is not judged."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis.weld_group import Line, parallel_runs, weld_group
from structcheck.checks.basis import RATED, ULTIMATE, Basis
from structcheck.checks.weld import Weld, WeldLoads, check_weld
from structcheck.checks.weld_group import GroupRun, RunGroup, RunGroupLoads, check_run_group
from structcheck.checks.weld_intermittent import Intermittent, Stretches, intermittent_size, staggered_gap
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.press.model import check_description
from structcheck.press.reading import press_of

S235 = find_steel("S235")
BASIS = Basis()
PIECE = Intermittent(
    name="seam", gap=100.0, end_run=80.0, thickness=10.0, other=12.0, width=100.0, other_width=100.0, dry=True
)
WELD = Weld(
    name="seam", throat=4.0, length=700.0, runs=2, steel=S235, inspected=True, stretches=5, stretch=60.0,
    end_stretch=80.0, dry=True, pulled=True, thickness=8.0, thickest=10.0, width=100.0, other_width=80.0,
)  # fmt: skip


def _found(outcome, check="weld throat"):
    return next(f for f in outcome.findings if f.check == check)


def _asked(part, along=20e3, across=0.0):
    return check_weld(part, [WeldLoads(case, along, across) for case in (ULTIMATE, RATED)], BASIS)


# EN 1993-1-8:2005 figure 4.1 (memory).
def test_intermittent_fillets():
    """Gap 16 t in tension, here 160; b/4 in compression, here 25; ends 0.75 b; never in the weather."""
    pulled = intermittent_size(replace(PIECE, pulled=True))
    assert (pulled.verdict, pulled.reason, pulled.utilisation) == ("holds", "stretch at each end", 75 / 80)
    assert intermittent_size(PIECE).utilisation == 100 / 25
    assert intermittent_size(PIECE).reason == "gap, parts pressed along it, or shear"
    wet = intermittent_size(replace(PIECE, pulled=True, dry=False))
    assert wet.verdict == "not checked" and "dry = true" in wet.reason
    unknown = intermittent_size(replace(PIECE, width=None, other=None))
    assert unknown.verdict == "not checked" and "`thickest`, `width` not stated" in unknown.reason


def test_where_the_stretches_lie():
    """Two of 80 at the ends, three of 60 between, gaps of 90: they end where the run ends."""
    laid = Stretches(700.0, 5, 60.0, 80.0)
    assert laid.pieces == (80.0, 60.0, 60.0, 60.0, 80.0)
    assert laid.gap == 90.0
    assert list(laid.places()) == [(0, 80), (170, 230), (320, 380), (470, 530), (620, 700)]
    assert laid.effective(4.0) == 340 - 5 * 8
    assert staggered_gap(90.0, 60.0) == 15.0


# EN 1993-1-8:2005 4.9 (memory): the force for each mm of run times (e + l) / l.
def test_force_along_is_carried_by_what_is_welded():
    """Two runs of 290 mm that count, throat 5, S235: 360/(sqrt 3 x 0.8 x 1.25) MPa."""
    found = _found(_asked(replace(WELD, throat=5.0)))
    assert found.capacity.value == pytest.approx(2 * 290 * 5 * 360 / (3**0.5 * 0.8 * 1.25))
    even = replace(WELD, length=60.0 * 4 + 90.0 * 3, stretches=4, end_stretch=None)
    whole = replace(even, stretches=1, stretch=None)
    share = (60 - 8) * 4 / (whole.length - 8)
    assert _found(_asked(even)).capacity.value == pytest.approx(_found(_asked(whole)).capacity.value * share)


def test_every_check_of_an_intermittent_weld_is_done():
    """Size, throat, fatigue and the part beside it; its ends are told to belong to the fatigue of the parts."""
    outcome = _asked(WELD)
    assert {f.check for f in outcome.findings} == {"weld throat", "weld size", "yield at greatest force", "fatigue"}
    assert _found(outcome, "weld size").reason.startswith(
        "stretch at each end (beside it: effective length 0.58, throat 0.75)"
    )
    assert any("5 stretches, 90 mm between them" in a.text for a in outcome.assumptions)
    assert _found(_asked(replace(WELD, dry=False)), "weld size").verdict == "not checked"
    short = _found(_asked(replace(WELD, stretch=37.0, end_stretch=80.0)), "weld size")
    assert short.verdict == "fails" and short.reason.startswith("shortest stretch: effective length: no less than")


def test_staggered_stretches_may_stand_further_apart():
    """Pressed parts of 100 mm allow gaps of 20; 90 on a side staggered leave 15 across."""
    pressed = replace(WELD, pulled=False, end_stretch=None, length=660.0, stretch=60.0)
    assert _found(_asked(pressed), "weld size").verdict == "fails"
    staggered = replace(pressed, staggered=True, end_stretch=80.0, length=700.0)
    assert _found(_asked(staggered), "weld size").verdict == "holds"


@settings(max_examples=60, deadline=None)
@given(
    st.integers(2, 7), st.floats(40, 90), st.floats(0, 60), st.floats(5, 120), st.floats(-1, 1), st.floats(-200, 200)
)
def test_a_lever_on_stretches_is_never_underrated(count, one, more, gap, across, lever):
    """Against the group of the stretches themselves, the run smeared out feels no less."""
    a, length = 4.0, 2 * (one + more) + (count - 2) * one + (count - 1) * gap
    part = replace(WELD, runs=1, length=length, stretches=count, stretch=one, end_stretch=one + more)
    moment = 10e3 * lever
    smeared = parallel_runs(part.spread, a, [0.0], 10e3, 10e3 * across, moment)
    smeared = [value * part.spread / part.effective for value in smeared]
    lines = [Line((s + a, 0, 0), (e - a, 0, 0), a) for s, e in part.laid.places()]
    stations = weld_group(lines).tractions((10e3, 10e3 * across, 0), (0, 0, moment), (length / 2, 0, 0))
    for axis in (0, 1):
        assert max(abs(s.tractions[:, axis]).max() for s in stations) <= smeared[axis] * (1 + 1e-9) + 1e-9


def test_a_run_of_a_group_is_its_stretches():
    """The same as every stretch written out by itself, and the one worked hardest is named."""
    ways = {"steel": S235, "inspected": True, "thickness": 8.0, "thickest": 10.0, "width": 30.0, "other_width": 30.0}
    run = GroupRun(
        start=(0, 0, 0), end=(0, 0, 700), throat=4.0, sides="lap", stretches=5, stretch=60.0, end_stretch=80.0
    )
    other = replace(run, start=(100.0, 0.0, 0.0), end=(100.0, 0.0, 700.0))
    laid = RunGroup(name="seam", runs=(run, other), dry=True, pulled=True, **ways)
    apart = tuple(
        GroupRun(start=(x, 0, s), end=(x, 0, e), throat=4.0, sides="lap")
        for x in (0, 100) for s, e in run.laid.places()
    )  # fmt: skip
    load = [RunGroupLoads(case, (5e3, 0.0, 20e3), (150.0, 0.0, 0.0), (0.0, 3e5, 0.0)) for case in (ULTIMATE, RATED)]
    one, written = (check_run_group(part, load, BASIS) for part in (laid, RunGroup(name="seam", runs=apart, **ways)))
    assert _found(one).utilisation == pytest.approx(_found(written).utilisation)
    assert "stretch" in _found(one).reason
    assert _found(one, "weld size").verdict == "holds"
    assert _found(check_run_group(replace(laid, dry=False), load, BASIS), "weld size").verdict == "not checked"


def test_a_round_run_in_stretches_stays_on_its_circle():
    """Four stretches on half a circle of 100 mm radius: their ends are 100 mm from the centre, and in order."""
    half = GroupRun(start=(100, 0, 0), centre=(0, 0, 0), angle=3.14159265, throat=4.0, stretches=4, stretch=50.0)
    group = RunGroup(name="ring", runs=(half,), steel=S235)
    assert [piece.whole.length for piece in group.pieces] == pytest.approx([50.0] * 4)
    last = group.pieces[-1].whole
    assert last.at([last.angle])[0][0] == pytest.approx((-100.0, 0.0, 0.0), abs=1e-4)


@pytest.mark.parametrize(
    ("change", "text"),
    [
        ({"stretches": 1}, "is no intermittent run"),
        ({"stretches": 12}, "leave no gaps in 700 mm of run"),
        ({"stretch": None}, "is missing: an intermittent run has stretches"),
        ({"returned": True}, "their ends are not returned"),
        ({"staggered": True, "runs": 1}, "needs runs on both sides"),
        ({"stretches": 1, "stretch": None, "end_stretch": None, "staggered": True}, "is missing"),
    ],
)
def test_what_cannot_be_laid_is_told(change, text):
    """Each names its key."""
    with pytest.raises(InputError, match=text):
        _asked(replace(WELD, **change))


BOX = {
    "name": "box head", "shape": "box", "h": "120 mm", "b": "100 mm", "tw": "8 mm", "tf": "10 mm", "throat": "4 mm",
    "inspected": True,
}  # fmt: skip


def _seams(**section):
    beam = {"name": "head", "section": "box head", "steel": "S235", "span": "800 mm", "load": "6 t"}
    press = {"schema": 1, "jack": {"rating": "6 t"}, "section": [BOX | section], "beam": [beam]}
    result = check_description(press_of(press))
    return {f.check: f for f in result.findings if f.part == "head, seams"}


def test_seams_in_stretches_carry_as_much_as_is_welded():
    """Stretches of 60 in steps of 80: 52 of 80 mm count; gaps of 20 are within a quarter of 100 mm."""
    whole, laid = _seams(), _seams(stretch="60 mm", stretch_gap="20 mm", end_stretch="120 mm", dry=True)
    assert laid["weld throat"].utilisation == pytest.approx(whole["weld throat"].utilisation * 80 / 52)
    assert laid["weld size"].verdict == "holds"
    assert _seams(stretch="60 mm", stretch_gap="30 mm", end_stretch="120 mm", dry=True)["weld size"].verdict == "fails"
    assert _seams(stretch="60 mm", stretch_gap="20 mm", end_stretch="120 mm")["weld size"].verdict == "not checked"


def test_seams_in_stretches_close_no_box():
    """Nor may one of their two lengths be left out."""
    with pytest.raises(InputError, match="welded along its whole length"):
        _seams(stretch="60 mm", stretch_gap="20 mm", closed=True)
    with pytest.raises(InputError, match="stretch_gap"):
        _seams(stretch="60 mm")
