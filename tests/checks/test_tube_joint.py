"""Tubes and plates welded to tubes: the face governs; outside the tables nothing is said."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import ULTIMATE, Basis, from_rated
from structcheck.checks.tube_joint import NEEDED, TubeJoint, TubeJointLoads, check_tube_joint
from structcheck.checks.tube_wall import Upon, face_of, force_limits, moment_limits
from structcheck.errors import InputError, NotCovered
from structcheck.findings import Result
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up
from tests.printed import printed
from tests.reference.reading import case

BASIS = Basis()
S235, S355 = (find_steel(name, route="cold formed") for name in ("S235", "S355"))
CHORD, BRACE, RHS = (
    look_up(f"{name} cold formed").section for name in ("SHS 100x100x5", "SHS 80x80x4", "RHS 150x100x6.3")
)
CORNER = TubeJoint(
    name="corner", chord=CHORD, chord_steel=S235, brace=BRACE, brace_steel=S235, throat=6.0, cross=False, inspected=True
)


def _ask(part, pull=0.0, stress=0.0, basis=BASIS, **more):
    def make(c, f):
        return TubeJointLoads(c, pull * f, stress * f, **{key: value * f for key, value in more.items()})

    return check_tube_joint(part, from_rated(basis, make), basis)


def _found(outcome, check="tube face"):
    return next(f for f in outcome.findings if f.check == check)


def test_the_face_governs_not_the_tube():
    """SHS 80 on SHS 100x5 S235 in tension: 99.5 kN against 276 kN of the tube."""
    g, expected = case("tube_joints", "tube-on-tube")
    assert [look_up(g[key]).section for key in ("chord", "brace")] == [CHORD, BRACE]
    found = _found(_ask(CORNER, pull=50e3))
    assert found.capacity.value / 1e3 == printed(expected["joint_kN"])
    assert found.reason == "yield lines in the face, Table 7.11"
    assert printed(expected["tube_kN"]) == BRACE.A * 235 / 1e3


def test_plates_on_a_tube():
    """HS-01 and HS-03."""
    face = face_of(RHS, S355)
    g, expected = case("tube_joints", "HS-01")
    across = force_limits(
        face, Upon("plate across", g["b_1"], g["b_1"], g["t_1"], 355.0), 0.0, compression=False, cross=False
    )
    assert min(across).value / 1e3 == printed(expected["plate_kN"])
    # 90 is above b_0 - 2 t_0 = 87.4: the side walls count, punching does not.
    assert max(across).value / 1e3 == printed(expected["side_wall_kN"])
    assert [limit.mode for limit in sorted(across)] == ["plate, Table 7.13", "side walls, Table 7.13"]
    g, expected = case("tube_joints", "HS-03")
    lug = Upon("plate along", g["t_1"], g["h_1"], g["t_1"], 355.0)
    (along,) = force_limits(face, lug, 0.0, compression=False, cross=False)
    assert along.value / 1e3 == printed(expected["lower_kN"])


def test_pressed_side_walls_buckle():
    """Pressed, the walls of HS-01 bear less than the 185.63 kN at which they crush; a cross joint less again."""
    face, plate = face_of(RHS, S355), Upon("plate across", 90.0, 90.0, 10.0, 355.0)
    pulled, pressed, cross = (
        force_limits(face, plate, 0.0, compression=c, cross=x)[1].value
        for c, x in ((False, False), (True, False), (True, True))
    )
    assert pulled > pressed
    assert cross == pytest.approx(0.8 * pressed)


def test_force_and_moment_are_added():
    """7.5.2.2: N/N_Rd + M/M_Rd, which is linear: the utilisation is the clause's ratio."""
    force, moment = (_found(_ask(CORNER, **each)) for each in ({"pull": 20e3}, {"in_plane": 0.5e6}))
    both = _found(_ask(CORNER, pull=20e3, in_plane=0.5e6))
    assert both.utilisation == pytest.approx(force.utilisation + moment.utilisation)
    assert both.clause_ratio == pytest.approx(both.utilisation)


def test_moment_of_a_narrow_brace():
    """Table 7.14 as recalled, by hand: 5875 x 80 x (0.625 + 4.4721 + 4.0) = 4.276 kN m."""
    face, upon = face_of(CHORD, S235), CORNER.upon
    (limit,) = moment_limits(face, upon, 0.0, BRACE.Wpl_y, cross=False)
    assert limit.value / 1e6 == printed("4.276")


def test_wide_brace_meets_side_walls_and_its_own_walls():
    """SHS 100 on SHS 100x5: by hand, side walls 235 x 5 x (200 + 50) = 293.75 kN; half b_eff pulls."""
    wide = look_up("SHS 100x100x5 cold formed").section
    face, upon = face_of(CHORD, S235), Upon("tube", 100.0, 100.0, 5.0, 235.0)
    limits = {limit.mode: limit.value for limit in force_limits(face, upon, 0.0, compression=False, cross=False)}
    assert limits["face and side walls, Table 7.11"] == pytest.approx(293.75e3)
    # b_eff = 10/20 x 100 = 50: 235 x 5 x (200 - 20 + 100)
    assert limits["walls of the tube upon the face, Table 7.11"] == pytest.approx(329e3)
    moments = {m.mode: m.value for m in moment_limits(face, upon, 0.0, wide.Wpl_y, cross=False)}
    assert moments["side walls, Table 7.14"] == pytest.approx(0.5 * 235 * 5 * 125**2)


def test_between_face_and_walls_the_line_is_straight():
    """At beta 0.85 it starts from the face, at 1 it ends at the walls."""
    face = face_of(CHORD, S235)
    values = [
        force_limits(face, Upon("tube", b, 80.0, 4.0, 235.0), 0.0, compression=False, cross=False)[0].value
        for b in (85.0, 92.5, 100.0)
    ]
    assert values[1] == pytest.approx((values[0] + values[2]) / 2)


@pytest.mark.parametrize(
    "upon, n, reason",
    [
        (Upon("tube", 20.0, 20.0, 2.6, 235.0), 0.0, "outside 0.25 to 1"),
        (Upon("tube", 80.0, 200.0, 8.0, 235.0), 0.0, "outside 0.5 to 2"),
        (Upon("tube", 95.0, 95.0, 2.6, 235.0), 0.0, "thinner than 1/35"),
        (Upon("tube", 80.0, 80.0, 2.0, 235.0), 0.0, "under 2.5 mm"),
        (Upon("round tube", 90.0, 90.0, 4.0, 235.0), 0.0, "outside 0.4 to 0.8"),
        (Upon("plate across", 40.0, 40.0, 10.0, 235.0), 0.0, "outside 0.5 to 1"),
        (Upon("plate along", 25.0, 100.0, 25.0, 235.0), 0.0, "above 0.2"),
        (Upon("tube", 80.0, 80.0, 4.0, 500.0), 0.0, "above 460 MPa"),
    ],
)
def test_outside_the_ranges_nothing_is_said(upon, n, reason):
    """Each range of Tables 7.8 and 7.13 and of 7.1.1."""
    with pytest.raises(NotCovered, match=reason):
        force_limits(face_of(CHORD, S235), upon, n, compression=False, cross=False)


@pytest.mark.parametrize(
    "name, reason",
    [("SHS 120x120x3", "above 35"), ("SHS 40x40x2", "outside 2.5 to 25"), ("IPE 160", "is not a hollow section")],
)
def test_chords_outside_the_ranges(name, reason):
    """Too slender, too thin, not a tube."""
    section = look_up(name).section
    with pytest.raises(NotCovered, match=reason):
        force_limits(face_of(section, S235), CORNER.upon, 0.0, compression=False, cross=False)


def test_slender_chord_in_compression_is_not_covered():
    """Class 1 or 2 is asked for where the face is pressed: 140x140x4 S355 is class 3 there."""
    slender = look_up("SHS 140x140x4").section
    face, brace = face_of(slender, S355), Upon("tube", 100.0, 100.0, 5.0, 355.0)
    assert force_limits(face, brace, -0.3, compression=False, cross=False)
    with pytest.raises(NotCovered, match="not class 1 or 2"):
        force_limits(face, brace, 0.3, compression=False, cross=False)


def test_out_of_plane_moment_is_not_judged():
    """And a plate whose way nobody states is not either."""
    assert "across the plane" in _found(_ask(CORNER, pull=1e3, out_plane=1e5)).reason
    flat = replace(CORNER, brace=look_up("FL 80x10").section)
    assert "say whether the plate" in _found(_ask(flat, pull=1e3)).reason
    assert _found(_ask(replace(flat, plate_along=False), pull=1e3)).verdict == "holds"
    lug = replace(flat, plate_along=True)
    assert "Table 7.14" in _found(_ask(lug, pull=1e3, in_plane=1e5)).reason


def test_round_tube_counts_pi_over_four():
    """A round brace on a flat face: the square's resistance times pi / 4 (Table 7.11)."""
    face = face_of(CHORD, S235)
    square, rounded = (
        force_limits(face, Upon(kind, 60.0, 60.0, 4.0, 235.0), 0.0, compression=False, cross=False)[0].value
        for kind in ("tube", "round tube")
    )
    assert rounded / square == printed("0.7854")


def test_weld_of_full_strength_or_not_checked():
    """All round: twice the two-sided throat; a weaker one is not judged, an unknown one neither."""
    found = _found(_ask(CORNER, pull=1e3), "weld throat")
    assert found.demand.value == pytest.approx(4 * 0.9231, rel=1e-3)
    assert found.verdict == "holds"
    assert "is under the 5.275 mm of full strength" in (
        _found(_ask(replace(CORNER, throat=5.0, inspected=False), pull=1e3), "weld throat").reason
    )
    assert "full strength needs 3.693 mm" in _found(_ask(replace(CORNER, throat=None), pull=1e3), "weld throat").reason


def test_fatigue_has_no_category():
    """Not checked, unless the use is static."""
    assert "hot spot" in _found(_ask(CORNER, pull=1e3), "fatigue").reason
    still = _ask(CORNER, pull=1e3, basis=Basis(static=True))
    answered = {f.check for f in still.findings} | {n.check for n in still.does_not_apply}
    assert answered == set(NEEDED)


def test_corners_ask_for_killed_steel():
    """The chord's corners lie within 5 t of the weld: a condition, until the user says the steel is killed."""
    result = Result("", {}, _ask(CORNER, pull=1e3, basis=Basis(static=True)))
    assert result.verdict == "holds if"
    sure = Result("", {}, _ask(replace(CORNER, killed=True), pull=1e3, basis=Basis(static=True)))
    assert sure.verdict == "holds"


def test_a_missing_case_is_no_pass():
    """No ultimate load: the face is not checked."""
    outcome = check_tube_joint(CORNER, [], BASIS)
    assert _found(outcome).verdict == "not checked"


@settings(max_examples=40, deadline=None)
@given(st.floats(-6e4, 6e4), st.floats(0, 2e6), st.floats(0, 200), st.floats(0, 30))
def test_more_compression_in_the_chord_is_never_better(pull, moment, stress, more):
    """Stress pressed into the face only takes away."""
    one, two = (
        check_tube_joint(CORNER, [TubeJointLoads(ULTIMATE, pull, s, in_plane=moment)], BASIS)
        for s in (stress, stress + more)
    )
    assert _found(two).utilisation >= _found(one).utilisation - 1e-12


def test_a_tube_joints_throat_keeps_the_least_there_is():
    """3 mm (4.5.2(2)), though a thin wall be fully held by less; none stated is no pass."""
    for throat, verdict in ((2.9, "fails"), (3.0, "holds"), (None, "not checked")):
        outcome = check_tube_joint(replace(CORNER, throat=throat), [TubeJointLoads(ULTIMATE, 1e3, 0.0)], BASIS)
        assert next(f for f in outcome.findings if f.check == "weld size").verdict == verdict


def test_how_a_flat_lies_means_nothing_for_a_tube():
    """Refused, as what is said and dropped misleads."""
    with pytest.raises(InputError, match="means nothing for SHS 80x80x4"):
        check_tube_joint(replace(CORNER, plate_along=True), [TubeJointLoads(ULTIMATE, 1e3, 0.0)], BASIS)
