"""The upright: tension, tension with bending, holes, and what cannot occur."""

import pytest

from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis, from_rated
from structcheck.checks.upright import Upright, UprightLoads, check_upright
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up
from tests.printed import printed
from tests.reference.reading import case


def upright(name, steel="S235", **more):
    """An upright of a library section."""
    section = look_up(name).section
    return Upright("upright", section, find_steel(steel, route=section.route), length=950.0, **more)


def asked(part, loads, basis=None):
    """(findings by name, outcome)."""
    outcome = check_upright(part, loads, basis or Basis())
    return {f.check: f for f in outcome.findings}, outcome


def pulled(pull, moment=0.0):
    """The three central cases of a pull at rated force."""
    return from_rated(Basis(), lambda case, k: UprightLoads(case, k * pull, k * moment))


def test_the_press_upright_of_the_reference():
    """BC-07 (derived): 0.555 by the factor on all forces, 0.28 by the clause."""
    given, expected = case("members", "BC-07")
    part = upright("RHS 150x100x6.3 hot", "S355")
    found, outcome = asked(part, [UprightLoads(ULTIMATE, given["N"], given["M_y"])])
    finding = found["axial and bending"]
    assert finding.utilisation == printed(expected["utilisation"])
    assert finding.clause_ratio == pytest.approx(expected["clause"], rel=2e-3)
    assert found["axial"].utilisation == pytest.approx(expected["n"], rel=2e-3)
    assert any(n.check == "flexural buckling" for n in outcome.does_not_apply)


def test_the_elastic_stress_adds_pull_and_bending():
    """BC-07 (derived): 0.664 of f_y for the same forces."""
    given, expected = case("members", "BC-07")
    part = upright("RHS 150x100x6.3 hot", "S355")
    found, _ = asked(part, [UprightLoads(GREATEST, given["N"], given["M_y"])])
    assert found["yield at greatest force"].utilisation == pytest.approx(expected["elastic"], rel=2e-3)


def test_two_flats_with_a_bolt_hole():
    """2 FL 80x10, 18 mm hole: N_u = 0.9 A_net f_u / 1.25 by hand; the stress is that of the net section (derived)."""
    part = upright("FL 80x10", pieces=2, hole=18.0)
    found, outcome = asked(part, pulled(39e3))
    A_net = 2 * 10 * (80 - 18)
    assert found["net section"].capacity.value == pytest.approx(0.9 * A_net * 360 / 1.25)
    assert found["net section"].demand.value == pytest.approx(1.5 * 39e3)
    assert found["axial"].capacity.value == pytest.approx(2 * 800 * 235)
    assert found["yield at greatest force"].demand.value == pytest.approx(1.25 * 39e3 / A_net)
    assert "plate with ordinary bolts" in found["fatigue"].reason
    assert outcome.times_on_yield[0].value == pytest.approx(235 * A_net / 39e3)


def test_without_holes_the_net_section_does_not_apply():
    """It is named, not left out."""
    _, outcome = asked(upright("FL 80x10"), pulled(39e3))
    assert {n.check for n in outcome.does_not_apply} == {"net section", "flexural buckling", "axial and bending"}


def test_a_pushed_upright_is_not_passed():
    """Compression: flexural buckling is needed and not judged here."""
    found, _ = asked(upright("FL 80x10"), [UprightLoads(ULTIMATE, -10e3), UprightLoads(RATED, -7e3)])
    assert found["flexural buckling"].verdict == "not checked"


def test_more_tension_never_helps_by_a_better_class():
    """A slender tube bent as a class 3 or 4 section stays so however hard it is pulled."""
    part = upright("RHS 200x100x4", "S355")
    bent = {
        pull: asked(part, [UprightLoads(ULTIMATE, pull, 25e6)])[0]["axial and bending"].utilisation
        for pull in (1.0, 1e5, 3e5)
    }
    assert bent[1.0] < bent[1e5] < bent[3e5]


@pytest.mark.parametrize("more", [{"hole": 90.0}, {"hole": -1.0}, {"hole": 18.0, "holes": 5}])
def test_holes_that_leave_nothing_are_refused(more):
    """A hole wider than the flat is an error of input."""
    with pytest.raises(InputError, match="leaves no section"):
        check_upright(upright("FL 80x10", **more), pulled(1e3), Basis())
