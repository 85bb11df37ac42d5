"""Angles in bending: principal axes, class, buckling sideways; what is not known is refused."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.linalg import eigh

from structcheck.analysis.beam import PointLoad, solve
from structcheck.checks.angle_lateral import _softness, _wagner, critical_moment
from structcheck.checks.angle_stress import angle_points
from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.beam import Beam, BeamLoad, check_beam
from structcheck.checks.member_stress import Station, greatest_stress
from structcheck.checks.section_resistance import check_member_section
from structcheck.materials.steels import find_steel
from structcheck.shapes.angles import Angle
from structcheck.shapes.library import look_up
from structcheck.shapes.section import Section

STEEL = find_steel("S235")
E, G = 210e3, 210e3 / 2.6


def sharp(h, b, t):
    """An angle without radii."""
    return Section(f"L {h}x{b}x{t}", "", "own", "rolled", {}, geometry=Angle(h, b, t, 0.0, 0.0))


def found(section, pieces=1, steel=STEEL, **forces):
    made = check_member_section("angle", section, steel, pieces, [Station(ULTIMATE, "here", **forces)], Basis())
    return {finding.check: finding for finding in made.findings}


def by_principal_axes(section, N, M_y, M_z):
    """Greatest stress at the corners, from moments about u and v (independent: the axes are turned by hand)."""
    turn = np.array(
        [[math.cos(section.alpha), math.sin(section.alpha)], [-math.sin(section.alpha), math.cos(section.alpha)]]
    )
    places = turn @ section.shape.polygons[0].T
    worst = 0.0
    for sense in (1, -1):
        # The stress vector's work: M_u compresses +v, M_v compresses +u.
        across, along = turn @ np.array([sense * M_z, M_y])
        sigma = along * places[1] / section.Iu + across * places[0] / section.Iv
        worst = max(worst, float(np.max(np.abs(sigma))))
    return worst + N / section.A


@pytest.mark.parametrize("size", [(80.0, 80.0, 8.0), (120.0, 80.0, 10.0), (100.0, 50.0, 6.0)])
@pytest.mark.parametrize("forces", [(0.0, 1e6, 0.0), (2e4, 1e6, 0.0), (2e4, 1e6, 4e5), (0.0, 0.0, 3e5)])
def test_stress_is_that_about_the_principal_axes(size, forces):
    """Two routes: the product of inertia, and the turned axes (derived)."""
    section, (N, M_y, M_z) = sharp(*size), forces
    stress = greatest_stress(section, [Station(ULTIMATE, "", N=N, M_y=M_y, M_z=M_z)])
    assert stress.value == pytest.approx(by_principal_axes(section, N, M_y, M_z), rel=1e-9)


def test_bending_an_angle_as_if_held_sideways_would_be_unsafe():
    """Free, the tip of an 80 x 8 bears a quarter more than M / W_y says."""
    section = sharp(80.0, 80.0, 8.0)
    free = greatest_stress(section, [Station(ULTIMATE, "", M_y=1e6)]).value
    assert free > 1.2 * 1e6 / section.Wel_y


def test_shear_along_the_upright_leg_adds_up_to_the_force():
    """The flow's integral over the leg is V (equilibrium); its peak is over V / (h t)."""
    section = sharp(120.0, 80.0, 2.0)
    points = angle_points(section, 0.0, 0.0, 1e3, 0.0, 0.0)
    tau = [float(t) for name, _, t in points if "upright" in name][::2]
    assert np.trapezoid(tau, dx=120 / 20) * 2.0 == pytest.approx(1e3, rel=0.03)
    assert max(tau) > 1e3 / (120 * 2)


def test_checks_are_elastic_and_take_all_forces():
    """Bending capacity f_y / sigma; with axial force the sum; doubling doubles."""
    section = look_up("L 80x80x8").section
    once = found(section, M_y=1e6, V_z=5e3, N=2e4)
    sigma = greatest_stress(section, [Station(ULTIMATE, "", M_y=1e6)]).value
    assert once["bending"].capacity.value == pytest.approx(1e6 * 235 / sigma)
    assert once["axial and bending"].utilisation > once["bending"].utilisation + 2e4 / section.A / 235 - 1e-9
    twice = found(section, M_y=2e6, V_z=1e4, N=4e4)
    for check in ("bending", "bending and shear", "axial and bending", "axial"):
        assert twice[check].utilisation == pytest.approx(2 * once[check].utilisation)
    assert found(section, pieces=2, M_y=2e6)["bending"].utilisation == pytest.approx(once["bending"].utilisation)


def test_slender_legs_are_refused_and_pressed_ones_take_their_own_row():
    """Table 5.2 sheet 3: h/t 15 eps and (b + h) / 2t 11.5 eps in compression; class 4 is no pass."""
    slender = sharp(150.0, 150.0, 6.0)
    assert found(slender, M_y=1e6)["bending"].verdict == "not checked"
    assert found(slender, N=1e5)["axial"].verdict == "holds"
    middling = sharp(80.0, 80.0, 6.0)  # 13.3: within 15, over 11.5
    assert found(middling, M_y=1e6)["bending"].verdict == "holds"
    assert found(middling, M_y=1e6, N=-1e3)["axial and bending"].verdict == "not checked"
    stocky = sharp(80.0, 80.0, 8.0)
    assert "class 3" in found(stocky, M_y=1e6, N=-1e3)["axial and bending"].reason


def angle_beam(section, **more):
    return Beam("angle", section, STEEL, span=900.0, quality="JR", **more)


def asked(section, load=3e3, **more):
    outcome = check_beam(angle_beam(section, **more), [BeamLoad(load, 450.0)], Basis())
    return {f.check: f for f in outcome.findings}, outcome


def statics(beam, load=1e3):
    return solve(beam.span, "simple", [PointLoad(load, beam.span / 2)], 1.0, 1e9)


# Memory: AISC 360 F10 for equal legs about a geometric axis, tip in compression, C_b = 1:
# 0.66 E b^4 t / L^2 (sqrt(1 + 0.78 (L t / b^2)^2) - 1), b between the middle lines.
@pytest.mark.parametrize("L", [400.0, 1500.0, 6000.0])
def test_m_cr_is_the_one_published_for_equal_legs(L):
    """Loads at the shear centre: the published moment, to the rounding of its two factors."""
    section, b, t = sharp(101.0, 101.0, 2.0), 100.0, 2.0
    beam = replace(angle_beam(section, load_height=0.0), span=L)
    published = 0.66 * E * b**4 * t / L**2 * (math.sqrt(1 + 0.78 * (L * t / b**2) ** 2) - 1)
    assert critical_moment(beam, statics(beam), 250.0 * L) == pytest.approx(published, rel=0.02)


@pytest.mark.parametrize(("height", "held"), [(0.0, ()), (79.0, ()), (79.0, (450.0,))])
def test_m_cr_lies_under_that_of_the_real_moments(height, held):
    """A force in the middle, twist by twelve sines (derived): never under ours, whichever way the angle stands."""
    section = sharp(80.0, 80.0, 4.0)
    beam = angle_beam(section, load_height=height, held_at=held)
    L, P, n = 900.0, 1e3, 16
    x = np.linspace(0, L, 4001)
    M = np.where(x < L / 2, x, L - x) * P / 2
    step = 2 if held else 1
    waves = [k * math.pi / L for k in range(step, step * n + 1, step)]
    phi = np.array([np.sin(w * x) for w in waves])
    slope = np.array([w * np.cos(w * x) for w in waves])
    least = math.inf
    for sense in (1, -1):
        stiff = G * section.It * np.trapezoid(slope[:, None] * slope[None], x)
        linear = sense * _wagner(section) * np.trapezoid(M * slope[:, None] * slope[None], x)
        linear = linear + height * P * phi[:, None, 2000] * phi[None, :, 2000]
        square = _softness(section) * np.trapezoid(M**2 * phi[:, None] * phi[None], x)
        # k^2 square + k linear - stiff: its least positive k, by halving on the definiteness.
        low, high = 0.0, 1e9
        for _ in range(80):
            k = (low + high) / 2
            if eigh(stiff - k * linear - k * k * square, eigvals_only=True)[0] > 0:
                low = k
            else:
                high = k
        least = min(least, low)
    ours = critical_moment(beam, statics(beam), P * L / 4)
    assert ours <= least * P * L / 4


def test_an_angle_beam_rests_on_where_it_is_loaded():
    """All that is asked of a flat, buckling sideways besides; the line of the loads is a condition."""
    checks, outcome = asked(look_up("L 80x80x8").section)
    assert checks.pop("web under load").verdict == "not checked"  # nobody says what presses on it
    assert all(finding.verdict == "holds" for finding in checks.values())
    assert checks["lateral torsional buckling"].utilisation > checks["bending"].utilisation
    assert any("shear centre" in a.condition for a in outcome.assumptions)
    longer = check_beam(replace(angle_beam(look_up("L 80x80x8").section), span=1800.0), [BeamLoad(3e3, 900.0)], Basis())
    more = {f.check: f for f in longer.findings}["lateral torsional buckling"]
    assert more.utilisation > 2 * checks["lateral torsional buckling"].utilisation


def test_what_no_method_reaches_is_refused():
    """Cantilevers, the method of rolled sections, twist of the frame, holes where it bends."""
    section = look_up("L 80x80x8").section
    for more in ({"supports": "cantilever"}, {"lateral_method": "rolled"}):
        assert asked(section, **more)[0]["lateral torsional buckling"].verdict == "not checked"
    for check in ("yield at greatest force", "bending", "bending and shear"):
        assert asked(section, hole=10.0)[0][check].verdict == "not checked"
    assert found(section, M_y=1e5, T=1e4)["bending and shear"].verdict == "not checked"
    assert found(section, M_y=1e5, T=1e4)["torsion"].verdict == "not checked"
