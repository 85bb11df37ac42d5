"""A beam of a frame pressed along its length: left out while small, judged with its bending where it is not."""

import math
from dataclasses import replace

import pytest

from structcheck.checks.basis import GREATEST, RATED, ULTIMATE, Basis
from structcheck.checks.beam import Beam, BeamLoad, check_beam
from structcheck.checks.section_resistance import Station
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up

SECTION = look_up("IPE 160").section
BEAM = Beam("head", SECTION, find_steel("S235", route="rolled"), 1, 1500.0)
N_CR = math.pi**2 * 210e3 * SECTION.Iz / 1500**2


def found(N, M_y=5e6, **changes):
    inside = [Station(case, "x = 750 mm", N=N, M_y=M_y) for case in (ULTIMATE, GREATEST, RATED)]
    outcome = check_beam(replace(BEAM, **changes), [BeamLoad(10e3, 750.0)], Basis(), inside=inside)
    return {f.check: f for f in outcome.findings}, {n.check for n in outcome.does_not_apply}


def test_up_to_four_per_cent_of_n_cr_compression_does_not_buckle():
    """EN 1993-1-1 6.3.1.2(4) (memory); N_cr by Euler about the weak axis (derived), twisting being stiffer."""
    findings, never = found(-0.039 * N_CR)
    assert "flexural buckling" in never and "buckling with bending" in never
    assert "flexural buckling" not in findings


def test_beyond_it_both_are_judged():
    """N over N_b,Rd with curve b about z (derived by hand), and more use with the moment than without."""
    findings, _ = found(-0.5 * N_CR)
    slender = math.sqrt(SECTION.A * 235 / N_CR)
    phi = 0.5 * (1 + 0.34 * (slender - 0.2) + slender**2)
    N_b = SECTION.A * 235 / (phi + math.sqrt(phi**2 - slender**2))
    assert findings["flexural buckling"].utilisation == pytest.approx(0.5 * N_CR / N_b, rel=1e-6)
    assert findings["buckling with bending"].utilisation > findings["flexural buckling"].utilisation


def test_a_pulled_beam_has_no_such_check():
    """Tension does not buckle."""
    findings, never = found(100e3)
    assert not {"flexural buckling", "buckling with bending"} & ({*findings} | never)
