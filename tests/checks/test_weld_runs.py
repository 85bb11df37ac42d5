"""Weld groups in space: throats resolved on their own planes, roots, butts, arcs, and what is not judged."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from structcheck.checks.basis import RATED, ULTIMATE, Basis
from structcheck.checks.weld_group import GroupRun, RunGroup, RunGroupLoads, _normals, check_run_group
from structcheck.errors import InputError
from structcheck.findings import Result
from structcheck.materials.steels import find_steel
from tests.printed import printed
from tests.reference.reading import case

S235 = find_steel("S235")
BASIS = Basis()
UP, OUT = (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)


def _group(*runs, **change):
    return RunGroup(name="bracket", runs=runs, steel=S235, **{"inspected": True, **change})


def _ask(group, force, at=(0, 0, 0), moment=(0, 0, 0)):
    return check_run_group(group, [RunGroupLoads(c, force, at, moment) for c in (ULTIMATE, RATED)], BASIS)


def _found(outcome, check="weld throat"):
    return next(f for f in outcome.findings if f.check == check)


def _bracket(**change):
    """A plate 10 thick square to a face, a vertical fillet on each side, 190 mm effective."""
    left = GroupRun(
        start=(0, -95, 0), end=(0, 95, 0), throat=5.0, returned=True, sides="both", face=(-1, 0, 0), face_2=UP
    )
    right = replace(left, start=(10, -95, 0), end=(10, 95, 0), face=OUT)
    return _group(left, right, **change)


def test_bracket_by_the_directional_method():
    """wgrp-16: the bending stress meets the throat at 45 degrees, 0.350."""
    g, expected = case("welds", "wgrp-16")
    found = _found(_ask(_bracket(method="directional"), (0, g["force"], 0), (5, 0, g["lever"])))
    assert found.utilisation == printed(expected["utilisation"])
    assert found.demand.value == g["force"]
    assert found.source == "EN 1993-1-8:2005 4.5.3.2 (directional), elastic (2.5)"


def test_without_legs_the_worst_throat_is_taken():
    """Then the directional method says what the simplified one says."""
    blind = tuple(replace(run, face=None, face_2=None) for run in _bracket().runs)
    loads = ((3e3, 40e3, 9e3), (5, 0, 100))
    directional, simplified = (
        _found(_ask(_group(*blind, method=m), *loads)).utilisation for m in ("directional", "simplified")
    )
    assert directional == pytest.approx(simplified)
    assert _found(_ask(_bracket(method="directional"), *loads)).utilisation < directional


def test_elastic_and_instantaneous_centre_differ_but_not_without_bound():
    """The second opinion of a C-shaped lap is printed; here 1.8 times the elastic force, at most about 2."""
    k = {"throat": 4.0, "returned": True, "sides": "lap"}
    runs = [((0, 0, 0), (100, 0, 0)), ((0, 0, 0), (0, 150, 0)), ((0, 150, 0), (100, 150, 0))]
    group = _group(*(GroupRun(start=a, end=b, **k) for a, b in runs))
    outcome = _ask(group, (0, -40e3, 0), (180, 75, 0))
    (answer,) = (text for text in outcome.answers if "instantaneous" in text)
    assert answer == (
        "bracket: by the instantaneous centre (US practice, a second opinion) the runs bear 138.3 kN, utilisation 0.29"
    )
    assert 1.5 < 138.3e3 / _found(outcome).capacity.value < 2.0
    same = _ask(group, (0, -40e3, 0), (80, 75, 0), (0, 0, -4e6))
    assert answer in same.answers


@pytest.mark.parametrize("z_1, z_2", [(6.0, 6.0), (6.0, 9.0), (12.0, 5.0)])
def test_throat_plane_of_unequal_legs(z_1, z_2):
    """The throat holds the root and the foot of the height on the fillet's surface: geometry, no formula."""
    run = GroupRun(start=(0, 0, 0), end=(0, 100, 0), leg=z_1, leg_2=z_2, face=OUT, face_2=UP)
    (normal,) = _normals(run, np.array([[0.0, 1.0, 0.0]]))
    toe_1, toe_2 = np.array([z_1, 0, 0]), np.array([0, 0, z_2])
    surface = (toe_2 - toe_1) / np.linalg.norm(toe_2 - toe_1)
    foot = toe_1 + ((0 - toe_1) @ surface) * surface
    assert np.linalg.norm(foot) == pytest.approx(run.a)
    assert normal @ foot == pytest.approx(0.0, abs=1e-9)
    assert np.linalg.norm(normal) == pytest.approx(1.0)


def test_a_ring_round_a_tube():
    """Radius 40, throat 3.5 on S235: pull, bending and torsion by thin-ring formulas."""
    ring = GroupRun(start=(40, 0, 0), centre=(0, 0, 0), throat=3.5, sides="around", face=OUT, face_2=UP)
    group, area = _group(ring, method="directional"), 2 * math.pi * 40 * 3.5
    pull = _found(_ask(group, (0, 0, 50e3))).utilisation
    assert pull == pytest.approx(math.sqrt(2) * 50e3 / area / 360)
    bend = _found(_ask(group, (0, 0, 0), moment=(2e6, 0, 0))).utilisation
    assert bend == pytest.approx(math.sqrt(2) * 2e6 / (math.pi * 40**2 * 3.5) / 360, rel=1e-3)
    torsion = _found(_ask(group, (0, 0, 0), moment=(0, 0, 2e6))).utilisation
    assert torsion == pytest.approx(math.sqrt(3) * 2e6 / (40 * area) / 360)
    assert _found(_ask(group, (0, 0, 50e3)), "weld size").reason.startswith("run 1: throat: no less than 3 mm")


def test_half_ring_loses_a_throat_at_each_end():
    """An arc that is no full turn has ends; returned, it has none."""
    arc = GroupRun(start=(40, 0, 0), centre=(0, 0, 0), angle=math.pi, throat=5.0, sides="lap")
    assert arc.effective.length == pytest.approx(math.pi * 40 - 10)
    assert replace(arc, returned=True).effective.length == pytest.approx(math.pi * 40)
    straight = GroupRun(start=(0, 0, 0), end=(0, 0, 60), throat=5.0)
    assert straight.effective.start == pytest.approx((0, 0, 5))
    assert straight.effective.end == pytest.approx((0, 0, 55))


def test_an_opening_root_is_worked_out_or_not_judged():
    """4.12: one fillet, plate 8, pulled: the throat bends under the lever from plate middle to throat middle."""
    one = GroupRun(start=(0, 0, 0), end=(100, 0, 0), throat=5.0, returned=True, sides="one")
    other = replace(one, start=(0, 60, 0), end=(100, 60, 0))
    unknown = _found(_ask(_group(one, other), (0, 0, 10e3), (50, 30, 0)))
    assert unknown.verdict == "not checked"
    assert "opens at its root" in unknown.reason
    known = _group(replace(one, plate=8.0), replace(other, plate=8.0))
    pull = 10e3 / (2 * 100 * 5.0)
    root = 6 * pull * 5.0 * (4 + 5 / (2 * math.sqrt(2))) / 5.0**2
    found = _found(_ask(known, (0, 0, 10e3), (50, 30, 0)))
    assert found.utilisation == pytest.approx(math.hypot(root, pull) / (360 / math.sqrt(3) / (0.8 * 1.25)))
    along = _found(_ask(_group(one, other), (10e3, 0, 0), (50, 30, 0)))
    assert along.verdict == "holds"


def test_sides_not_stated_are_not_judged():
    """Pulled across, nobody knows whether the root opens."""
    runs = tuple(replace(run, sides=None) for run in _bracket().runs)
    outcome = _ask(_group(*runs), (0, 0, 1e3), (5, 0, 0))
    assert "say how a run pulled across" in _found(outcome).reason
    assert Result("", {}, outcome).verdict == "incomplete"


def test_a_single_run_turned_about_itself_is_not_judged():
    """Only its root would carry it."""
    run = GroupRun(start=(0, 0, 0), end=(100, 0, 0), throat=5.0, sides="both")
    found = _found(_ask(_group(run), (0, 0, 0), moment=(1e5, 0, 0)))
    assert found.reason == "the runs lie on one line and the load turns about it: only the weld's root would carry it"


def test_butt_weld_is_as_strong_as_the_plate():
    """4.7.1: no beta_w; pulled square, f_y; without its direction, as shear."""
    butt = GroupRun(start=(0, 0, 0), end=(100, 0, 0), kind="full butt", throat=10.0, sides="both", face=UP)
    assert _found(_ask(_group(butt), (0, 0, 117.5e3), (50, 0, 0))).utilisation == pytest.approx(0.5)
    blind = replace(butt, face=None)
    assert _found(_ask(_group(blind), (0, 0, 117.5e3), (50, 0, 0))).utilisation == pytest.approx(0.5 * math.sqrt(3))
    seen = _ask(_group(butt), (0, 0, 1e3), (50, 0, 0)), _ask(_group(butt, inspected=False), (0, 0, 1e3), (50, 0, 0))
    assert [_found(o, "fatigue").reason.split(":")[0] for o in seen] == [
        "butt weld, category 71",
        "butt weld from one side, root not inspected, category 36",
    ]


def test_partial_butt_counts_two_millimetres_less():
    """Unless trials prove the penetration; it is judged as a fillet."""
    partial = GroupRun(start=(0, 0, 0), end=(100, 0, 0), kind="partial butt", throat=8.0, sides="both")
    assert partial.a == 6.0
    assert replace(partial, proven=True).a == 8.0
    found = _found(_ask(_group(partial), (0, 0, 62.354e3), (50, 0, 0)))
    assert found.utilisation == pytest.approx(0.5, rel=1e-4)


def test_contradictions_are_named():
    """Two problems at once, with the run's number."""
    bad = (GroupRun(start=(0, 0, 0), end=(9, 0, 0)), GroupRun(start=(0, 0, 0), end=(0, 0, 0), throat=4.0))
    with pytest.raises(InputError) as caught:
        _ask(_group(*bad), (1e3, 0, 0))
    assert [p.key for p in caught.value.problems] == ["runs 1", "runs 2"]
    with pytest.raises(InputError, match="not square to its axis"):
        _ask(_group(GroupRun(start=(40, 0, 9), centre=(0, 0, 0), throat=4.0)), (1e3, 0, 0))
    with pytest.raises(InputError, match="there is none"):
        _ask(_group(), (1e3, 0, 0))


def test_a_steel_nobody_knows_is_not_judged():
    """The runs' sizes still are."""
    outcome = _ask(replace(_bracket(), steel=find_steel("unknown")), (0, 0, 1e3), (5, 0, 0))
    assert "not known to be weldable" in _found(outcome).reason
    assert _found(outcome, "weld size").verdict == "holds"


_LOAD = st.tuples(*[st.just(0.0) | st.floats(1e-3, 5e4) | st.floats(-5e4, -1e-3)] * 3)
_PLACE = st.tuples(*[st.floats(-200, 200)] * 3)
LAWS = settings(max_examples=25, deadline=None)


@LAWS
@given(_LOAD, _PLACE, st.tuples(*[st.floats(-3, 3)] * 3), st.sampled_from(["simplified", "directional"]))
def test_turning_joint_and_load_changes_nothing(force, at, turn, method):
    """No direction of space is special, legs included."""
    rotation = Rotation.from_rotvec(turn)

    def moved(run):
        turned = {k: tuple(rotation.apply(getattr(run, k))) for k in ("start", "end", "face", "face_2")}
        return replace(run, **turned)

    group = _bracket(method=method)
    before = _found(_ask(group, force, at)).utilisation
    after = _found(
        _ask(
            replace(group, runs=tuple(map(moved, group.runs))), tuple(rotation.apply(force)), tuple(rotation.apply(at))
        )
    ).utilisation
    assert after == pytest.approx(before, rel=1e-6, abs=1e-9)


@LAWS
@given(_LOAD, _PLACE, st.floats(1.0, 5.0), st.sampled_from(["simplified", "directional"]))
def test_actions_times_s_multiply_the_utilisation(force, at, factor, method):
    """Elastic and without constants."""
    group = _bracket(method=method)
    one, more = (_found(_ask(group, tuple(f * x for x in force), at)).utilisation for f in (1.0, factor))
    assert more == pytest.approx(factor * one, rel=1e-9, abs=1e-12)


@LAWS
@given(_LOAD, _PLACE)
def test_simplified_is_never_bolder_than_directional(force, at):
    """First condition: the equivalent stress is at most sqrt(3) times the resultant."""
    used = [_found(_ask(_bracket(method=m), force, at)) for m in ("simplified", "directional")]
    # The second condition may be harder than the simplified method where all pull is normal to the throat.
    assert used[0].utilisation >= used[1].utilisation - 1e-9 or "second" in used[1].reason


def test_throats_the_plates_do_not_take_get_advice():
    """Above 0.7 of the thinner part, and too thin for the thicker one; no verdict."""
    thick, thin = _bracket(thickness=6.0), _bracket(thickest=40.0)
    assert any("0.7 x the thinner part of 6 mm" in text for text in _ask(thick, (0, 1e3, 0)).advice)
    assert any("cools too fast" in text for text in _ask(thin, (0, 1e3, 0)).advice)
    assert _ask(_bracket(), (0, 1e3, 0)).advice == ()


def test_a_thin_bracket_cracks_at_its_toe_first():
    """EN 1993-1-9 Table 8.5 (memory): two fillets of 5 mm on a plate of 6 pull 10 / 6 of their range out of it."""
    load = ((0, 10e3, 0), (5, 0, 100))
    blind, thin = (_found(_ask(_bracket(**known), *load), "fatigue") for known in ({}, {"thickness": 6.0}))
    assert thin.reason.startswith("cruciform toe, any size, category 40")
    assert thin.utilisation > blind.utilisation
    thick = _found(_ask(_bracket(thickness=20.0), *load), "fatigue")
    assert thick.utilisation == blind.utilisation
    assert any("at least 9.0 mm thick" in a.text for a in _ask(_bracket(), *load).assumptions)
    assert not any("at a toe first" in a.text for a in _ask(_bracket(thickness=6.0), *load).assumptions)


def test_the_directional_method_without_legs_says_that_it_gains_nothing():
    """Which runs are meant is told; with both legs stated nothing is said."""
    plain, faced = (
        GroupRun(start=(0, 0, 0), end=(0, 0, 90), throat=4.0, sides="both"),
        {"face": OUT, "face_2": (0, 1, 0)},
    )
    blind = _group(plain, replace(plain, start=(0, 9, 0), end=(0, 9, 90), **faced), method="directional")
    (text,) = [a.text for a in _ask(blind, (0, 0, 9e3)).assumptions if "simplified method" in a.text]
    assert "where the legs of run 1 lie is not stated (`face`, `face_2`)" in text
    simple = _found(_ask(replace(blind, method="simplified"), (9e3, 0, 0)))
    assert _found(_ask(_group(plain, method="directional"), (9e3, 0, 0))).utilisation >= simple.utilisation
    whole = _group(replace(plain, **faced), method="directional")
    assert not any("simplified method" in a.text for a in _ask(whole, (0, 0, 9e3)).assumptions)


def _straight(start, end, **more):
    return GroupRun(start=start, end=end, throat=4.0, sides="both", **more)


@pytest.mark.parametrize(
    ("runs", "words"),
    [
        ([_straight((0, 0, 0), (0, 0, 80))] * 2, "runs 2: lies where run 1 does"),
        ([_straight((0, 0, 0), (0, 0, 80)), _straight((0, 0.5, 120), (0, 0.5, 40))], "runs 2: lies where run 1"),
        ([_straight((40, 0, 0), None, centre=(0, 0, 0))] * 2, "runs 2: lies where run 1 does"),
        ([_straight((40, 0, 0), None, centre=(0, 0, 0), angle=5 * math.pi)], "is no way round a circle"),
        ([replace(_straight((0, 0, 0), (0, 0, 80)), throat=40.0)], "is a throat no fillet has"),
        ([replace(_straight((0, 0, 0), (0, 0, 80)), throat=None, leg=5.0, leg_2=50.0)], "is no fillet's beside a leg"),
    ],
)
def test_runs_that_cannot_be_are_refused(runs, words):
    """Laid on one another, more than once round, thicker than any, flat as a strip."""
    with pytest.raises(InputError) as caught:
        _ask(_group(*runs), (0, 0, 9e3))
    assert words in str(caught.value)


def test_runs_that_meet_or_lie_side_by_side_are_two():
    """End to end, on both sides of 3 mm, two halves of a circle, and across each other."""
    first = _straight((0, 0, 0), (0, 0, 80))
    half = _straight((40, 0, 0), None, centre=(0, 0, 0), angle=math.pi)
    for runs in (
        [first, _straight((0, 0, 80), (0, 0, 160))],
        [first, _straight((0, 3, 0), (0, 3, 80))],
        [first, _straight((0, -40, 40), (0, 40, 40))],
        [half, replace(half, start=(-40, 0, 0))],
    ):
        assert _found(_ask(_group(*runs), (0, 0, 9e3))).verdict == "holds"


def test_legs_that_are_no_fillets_are_not_judged():
    """4.3.2.1 (memory): from 60 to 120 degrees; two legs the same way have no throat at all."""
    for face, verdict in ((UP, "not checked"), ((0, 1, 0.5), "holds"), ((0, 0.3, 1), "not checked")):
        run = GroupRun(start=(0, 0, 0), end=(80, 0, 0), throat=4.0, sides="both", face=UP, face_2=face)
        assert _found(_ask(_group(run, method="directional"), (0, 9e3, 0))).verdict == verdict, face


def test_thin_parts_are_not_covered():
    """4.1: 4 mm, 2.5 mm for hollow sections."""
    for change, verdict in (({"plate": 3.0}, "not checked"), ({"plate": 3.0, "sides": "around"}, "holds")):
        run = replace(_straight((0, 0, 0), (0, 0, 80)), throat=3.0, **change)
        assert _found(_ask(_group(run), (0, 0, 1e3))).verdict == verdict
    tube = replace(_straight((0, 0, 0), (0, 0, 80)), throat=3.0, plate=3.0)
    assert _found(_ask(_group(tube, hollow=True), (0, 0, 1e3))).verdict == "holds"


def test_a_full_butt_weld_has_no_root_that_opens():
    """Whatever is said of its sides."""
    butt = GroupRun(start=(0, 0, 0), end=(0, 0, 80), throat=8.0, kind="full butt")
    assert _found(_ask(_group(butt), (9e3, 0, 0))).verdict == "holds"


@pytest.mark.parametrize("method", ["simplified", "directional"])
def test_a_second_leg_without_the_first_is_refused(method):
    """Beside a throat it was not read, and by the directional method it ended in a traceback."""
    run = GroupRun(start=(0.0, 0.0, 0.0), end=(0.0, 0.0, 80.0), throat=4.0, leg_2=3.0, face_2=(0.0, 1.0, 0.0))
    part = RunGroup(name="w", runs=(run,), steel=find_steel("S275"), method=method)
    with pytest.raises(InputError, match="stands without the other leg"):
        check_run_group(part, [RunGroupLoads(ULTIMATE, (0.0, 0.0, 10e3))], Basis())
