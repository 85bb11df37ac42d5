"""Channels loaded on their webs: twist of built-in and cantilevered ones, judged by both bounds of their ends."""

import math

import numpy as np
import pytest

from structcheck.analysis.beam import UniformLoad
from structcheck.analysis.warping import Ends, Torque, twist
from structcheck.checks.basis import Basis
from structcheck.checks.beam import Beam, BeamLoad, check_beam
from structcheck.checks.beam_statics import places, solved
from structcheck.checks.beam_torsion import PARTS, resultants, twist_of_beam
from structcheck.checks.member_torsion import warping
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up

SECTION = look_up("UPN 160").section
E, G = 210e3, 210e3 / 2.6
KAPPA = math.sqrt(G * SECTION.It / (E * SECTION.Iw))
WARPED = warping(SECTION)


def asked(supports, loads, **more):
    beam = Beam("arm", SECTION, find_steel("S275"), span=700.0, supports=supports, **more)
    outcome = check_beam(beam, loads, Basis())
    return {f.check: f for f in outcome.findings}, outcome


def test_a_cantilever_held_from_warping_at_its_root():
    """P L / W and B omega / I_w with B = P e tanh(kappa L) / kappa, at its root (by hand)."""
    P = 5e3
    found, outcome = asked("cantilever", [BeamLoad(P, 700.0)])
    B = P * WARPED.e * math.tanh(KAPPA * 700) / KAPPA
    sigma = P * 700 / SECTION.Wel_y + B * WARPED.omega / SECTION.Iw
    assert found["yield at greatest force"].demand.value == pytest.approx(1.25 * sigma, rel=0.01)
    assert found["torsion"].verdict == "holds" and "x = 0 mm" in found["torsion"].reason
    assert any("root held against twisting; both" in a.text for a in outcome.assumptions)


def test_a_root_free_to_warp_puts_the_whole_torque_into_saint_venant():
    """All of P e / W_t counts in shear whatever the root really does; held, its warping shear at the root is worse."""
    P = 5e3
    found, _ = asked("cantilever", [BeamLoad(P, 700.0)])
    tau_Rd = 275 / math.sqrt(3)
    t = 1.5 * P * WARPED.e / SECTION.Wt / (1.25 * tau_Rd)
    v = 1.5 * P / (SECTION.Avz * tau_Rd)
    S = WARPED.S / (SECTION.Iw * WARPED.t) * 1.5 * P * WARPED.e / tau_Rd
    assert found["shear"].utilisation == pytest.approx(v + max(t, S))


@pytest.mark.parametrize("at", [150.0, 350.0, 550.0])
@pytest.mark.parametrize(("supports", "ends"), [("fixed", Ends(True, True)), ("propped", Ends(True))])
def test_a_built_in_channel_stands_the_worse_of_both(supports, ends, at):
    """Its torsion is never under that of either way its ends may be held; forks alone would miss some."""
    loads = [BeamLoad(15e3, at)]
    found, _ = asked(supports, loads)
    greatest = 0.0
    for held in (ends, Ends()):
        torque = [Torque(15e3 * WARPED.e, at)]
        greatest = max(greatest, *(abs(float(twist(700.0, torque, KAPPA, x, ends=held).B)) for x in (0.0, at, 700.0)))
    warped = 1.25 * greatest * WARPED.omega / SECTION.Iw
    assert found["yield at greatest force"].demand.value >= warped * (1 - 1e-9)
    assert found["torsion"].verdict in ("holds", "fails")


def test_a_load_near_a_built_in_end_is_worse_than_forks_say():
    """Third point: the bimoment of the held end meets the greatest bending moment there."""
    beam = Beam("arm", SECTION, find_steel("S275"), span=2400.0, supports="fixed")
    found = {f.check: f for f in check_beam(beam, [BeamLoad(15e3, 500.0)], Basis()).findings}
    assert "x = 0 mm" in found["yield at greatest force"].reason


def test_a_spread_load_twists_as_the_integral_of_its_parts():
    """Sixteen torques against many: within 0.3 % of the root's and the ends' bimoment."""
    line = UniformLoad(10.0, 100.0, 600.0)
    few, many = resultants([line], PARTS), resultants([line], 4000)
    assert sum(f for f, _ in few) == pytest.approx(5e3)
    for ends in (Ends(True, True), Ends(True, free=True)):
        B = [twist(700.0, [Torque(f, at) for f, at in parts], KAPPA, 0.0, ends=ends).B for parts in (few, many)]
        assert pytest.approx(float(B[1]), rel=3e-3) == float(B[0])


def test_doubling_the_load_doubles_stress_and_tying_ends_the_twist():
    """The elastic checks are linear; tied pieces do not twist."""
    once, twice = (asked("cantilever", [BeamLoad(P, 700.0)])[0] for P in (2e3, 4e3))
    check = "yield at greatest force"
    assert twice[check].utilisation == pytest.approx(2 * once[check].utilisation)
    tied, _ = asked("cantilever", [BeamLoad(2e3, 700.0)], pieces=2, tied=True)
    assert "torsion" not in tied
    assert tied[check].utilisation < once[check].utilisation / 2
    assert np.isfinite(tied[check].utilisation)


@pytest.mark.parametrize("ends", [Ends(), Ends(True, True), Ends(left=True, free=True)])
def test_the_twist_at_all_places_at_once_is_that_at_each(ends):
    """On both sides of the load, too."""
    beam = Beam("arm", SECTION, find_steel("S275"), span=700.0)
    solution = solved(beam, [BeamLoad(15e3, 250.0)])
    at = [(x, side) for x, side, *_ in places(solution)]
    assert (250.0, "left") in at and (250.0, "right") in at
    together = twist_of_beam(beam, solution, np.array([x for x, _ in at]), np.array([side for _, side in at]), ends)
    for number, (x, side) in enumerate(at):
        alone = twist_of_beam(beam, solution, x, side, ends)
        for force in ("T_t", "T_w", "B"):
            expected = pytest.approx(float(getattr(alone, force)), rel=1e-12, abs=1e-6)
            assert getattr(together, force)[number] == expected
