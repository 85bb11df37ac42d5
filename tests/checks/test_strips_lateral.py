"""Buckling sideways of T and I sections of unlike flanges, by their own stability."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.linalg import eigh

from structcheck.analysis.beam import PointLoad, solve
from structcheck.checks.basis import Basis
from structcheck.checks.beam import Beam, BeamLoad, check_beam
from structcheck.checks.member_lateral import Segment, critical_moment
from structcheck.checks.strips_lateral import critical_moment_of, wagner
from structcheck.materials.steels import find_steel
from structcheck.shapes.built_up import welded_i, welded_t

STEEL = find_steel("S235")
E, G = 210e3, 210e3 / 2.6
UNLIKE = welded_i(200.0, 80.0, 6.0, 10.0, 140.0, 10.0)


def beam(section, **more):
    return Beam("b", section, STEEL, span=1500.0, quality="JR", **more)


def statics(part, load=1e3):
    return solve(part.span, "simple", [PointLoad(load, part.span / 2)], 1.0, 1e12)


def test_flanges_nearly_alike_buckle_as_flanges_alike():
    """The closed form of a doubly symmetric I under uniform moment, loads at the shear centre (derived)."""
    near = welded_i(200.0, 100.0, 6.0, 10.0, 100.0 + 1e-6, 10.0)
    part = beam(near, load_height=0.0)
    alike = critical_moment(welded_i(200.0, 100.0, 6.0, 10.0), Segment(1500.0))
    # Torsion constants differ by the junctions that the rolled shape counts.
    assert critical_moment_of(part, statics(part), 1e3 * 1500 / 4, 1.0) == pytest.approx(alike, rel=0.02)


@pytest.mark.parametrize("section", [UNLIKE, welded_t(150.0, 100.0, 8.0, 12.0)])
def test_wagners_integral_by_fibres(section):
    """sigma r^2 summed over small squares of the drawing (derived)."""
    total = 0.0
    y_0, z_0 = section.shape.centroid
    for strip in section.shape.strips:
        ny, nz = 200, 400
        dy, dz = (strip.y_2 - strip.y_1) / ny, (strip.z_2 - strip.z_1) / nz
        y = strip.y_1 + (np.arange(ny) + 0.5) * dy - y_0
        z = strip.z_1 + (np.arange(nz) + 0.5) * dz - z_0
        r2 = y[:, None] ** 2 + (z[None] - section.z_s) ** 2
        total += float(np.sum(z[None] / section.Iy * r2)) * dy * dz
    assert wagner(section.shape) == pytest.approx(total, rel=1e-3)


def test_the_lesser_flange_in_compression_is_the_worse():
    """Sagging presses the narrow top flange; turned about, the broad one: the helping sign is not counted."""
    part = beam(UNLIKE, load_height=0.0)
    M = 1e3 * 1500 / 4
    narrow, broad = (critical_moment_of(part, statics(part), M, sense) for sense in (1.0, -1.0))
    assert narrow < 0.95 * broad
    assert wagner(UNLIKE.shape) > 0


@pytest.mark.parametrize("height", [0.0, 80.0])
def test_m_cr_lies_under_that_of_the_real_moments(height):
    """A force in the middle, twist by sixteen sines with warping and Wagner's term (derived): never under ours."""
    part, L, P = beam(UNLIKE, load_height=height), 1500.0, 1e3
    x = np.linspace(0, L, 4001)
    M = np.where(x < L / 2, x, L - x) * P / 2
    waves = [k * math.pi / L for k in range(1, 17)]
    phi = np.array([np.sin(w * x) for w in waves])
    slope = np.array([w * np.cos(w * x) for w in waves])
    bent = np.array([-(w**2) * np.sin(w * x) for w in waves])

    def integral(weight, one):
        return np.trapezoid(weight * one[:, None] * one[None], x)

    stiff = G * UNLIKE.It * integral(1.0, slope) + E * UNLIKE.Iw * integral(1.0, bent)
    linear = wagner(UNLIKE.shape) * integral(M, slope) + height * P * phi[:, None, 2000] * phi[None, :, 2000]
    square = integral(M**2, phi) / (E * UNLIKE.Iz)
    low, high = 0.0, 1e6
    for _ in range(80):
        k = (low + high) / 2
        firm = eigh(stiff - k * linear - k * k * square, eigvals_only=True)[0] > 0
        low, high = (k, high) if firm else (low, k)
    ours = critical_moment_of(part, statics(part), P * L / 4, 1.0)
    # Half of it at worst: under a single force Wagner's term meets little twist where the moment is greatest.
    assert 0.45 * low * P * L / 4 < ours <= low * P * L / 4


def test_the_finding_is_linear_and_refuses_what_it_does_not_reach():
    """Doubling doubles; a cantilever and the rolled method are not judged; places held help."""

    def asked(load, **more):
        part = beam(UNLIKE, **more)
        found = {f.check: f for f in check_beam(part, [BeamLoad(load, 750.0)], Basis()).findings}
        return found["lateral torsional buckling"]

    once, twice = asked(1e4), asked(2e4)
    assert twice.utilisation == pytest.approx(2 * once.utilisation)
    assert asked(1e4, held_at=(750.0,)).utilisation < once.utilisation
    assert asked(1e4, supports="cantilever").verdict == "not checked"
    assert asked(1e4, lateral_method="rolled").verdict == "not checked"
    longer = replace(beam(UNLIKE), span=3000.0)
    found = {f.check: f for f in check_beam(longer, [BeamLoad(1e4, 1500.0)], Basis()).findings}
    assert found["lateral torsional buckling"].utilisation > 2 * once.utilisation
