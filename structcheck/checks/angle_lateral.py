"""Lateral torsional buckling of angles: EN 1993-1-1 6.3.2.2 with M_cr from the stability of the bent bar itself."""

from itertools import pairwise
from math import cos, pi, sin
from typing import Any

from structcheck.analysis.beam import BeamSolution
from structcheck.analysis.skew_lateral import critical_uniform_moment, force_within
from structcheck.checks.angle_stress import gradients
from structcheck.checks.basis import Basis
from structcheck.checks.beam_description import Beam
from structcheck.checks.general_lateral import general_finding, refuse_beyond
from structcheck.checks.member_class import class_in_bending
from structcheck.checks.member_forms import E, G, yield_strength
from structcheck.checks.member_stress import stresses
from structcheck.errors import NotCovered
from structcheck.findings import Finding


def angle_lateral_finding(beam: Beam, solution: BeamSolution, basis: Basis) -> Finding:
    """The finding; every piece buckles by itself. Raises NotCovered outside the method."""
    section = beam.section
    refuse_beyond(beam, "a cantilevered angle")
    f_y = yield_strength(section, beam.steel)
    M = abs(float(solution.greatest_moment().value)) / beam.pieces
    classified = max((class_in_bending(section, f_y, "y", sense) for sense in (1.0, -1.0)), key=lambda one: one.number)
    if classified.number == 4:
        raise NotCovered(f"{classified.text}: a class 4 leg in bending is not covered here")
    W = least_modulus(section, M_y=1.0)
    M_cr = critical_moment(beam, solution, M)
    return general_finding(beam, M, M_cr, W, f_y, classified, basis)


def critical_moment(beam: Beam, solution: BeamSolution, M: float) -> float:
    """M_cr of one piece, N mm: the least of the lengths between places held, the greatest moment all along each."""
    section = beam.section
    shape: Any = section.shape
    # Whether the angle stands on its heel or hangs from it nobody says: the worse height and the worse sense.
    height = max(shape.h - shape.t / 2, shape.t / 2) if beam.load_height is None else beam.load_height
    found = []
    ends = sorted({0.0, *beam.held_at, beam.span})
    for start, end in pairwise(ends):
        force = force_within(solution.loads, start, end) / beam.pieces
        lifted = height * force * 2 * (end - start) / (pi**2 * M)
        found.append(critical_moment_over(section, end - start, lifted))
    return min(found)


def critical_moment_over(section: Any, length: float, lifted: float = 0.0) -> float:
    """M_cr about y of one piece between two places held, N mm; `lifted` of `critical_uniform_moment`."""
    return critical_uniform_moment(G * section.It, _wagner(section), lifted, _softness(section), length)


def least_modulus(section: Any, **moment: float) -> float:
    """Moment over the greatest stress it puts on the angle, free to move sideways, mm3."""
    return 1 / float(stresses(section, **moment)[1].max())


def _softness(section: Any) -> float:
    """How far the twisted piece moves sideways under a moment 1 about y, by its parts about u and v."""
    m_u, m_v = cos(section.alpha), sin(section.alpha)
    return (m_u**2 / section.Iv + m_v**2 / section.Iu) / E


def _wagner(section: Any) -> float:
    """The integral of sigma r^2 under M_y = 1 over both legs, r from the heel, mm."""
    shape: Any = section.shape
    y_0, z_0 = section.centroid
    slope_z, slope_y = gradients(section, 1.0, 0.0)
    h, b, t = shape.h - shape.t / 2, shape.b - shape.t / 2, shape.t

    def leg(length: float, stress: Any) -> float:
        # A cubic along the leg: Simpson's rule is exact.
        values = [stress(p * length) * (p * length) ** 2 for p in (0.0, 0.5, 1.0)]
        return t * length / 6 * (values[0] + 4 * values[1] + values[2])

    up = leg(h, lambda s: slope_z * (t / 2 + s - z_0) + slope_y * (t / 2 - y_0))
    across = leg(b, lambda s: slope_z * (t / 2 - z_0) + slope_y * (t / 2 + s - y_0))
    return up + across
