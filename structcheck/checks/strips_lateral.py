"""Lateral torsional buckling of T and I sections of unlike flanges: EN 1993-1-1 6.3.2.2, M_cr from the bar's stability.

Wagner's term counts where it softens the bar and not where it helps; the greatest moment is taken all along.
"""

from itertools import pairwise
from math import pi
from typing import Any

import numpy as np

from structcheck.analysis.beam import BeamSolution
from structcheck.analysis.skew_lateral import critical_uniform_moment, force_within
from structcheck.checks.basis import Basis
from structcheck.checks.beam_description import Beam
from structcheck.checks.general_lateral import general_finding, refuse_beyond
from structcheck.checks.member_class import class_in_bending
from structcheck.checks.member_forms import E, G, yield_strength
from structcheck.checks.member_interaction import capacity
from structcheck.findings import Finding
from structcheck.shapes.strips import Strips


def covered(section: Any) -> bool:
    """Whether its plates stand symmetric about z, open, with a shear centre that is known."""
    shape = getattr(section, "shape", section)
    return isinstance(shape, Strips) and shape.cell is None and shape.centre is not None and not shape.cuts


def strips_lateral_finding(beam: Beam, solution: BeamSolution, basis: Basis) -> Finding:
    """The finding; every piece buckles by itself. Raises NotCovered outside the method."""
    section = beam.section
    refuse_beyond(beam, "a cantilever of this section")
    f_y = yield_strength(section, beam.steel)
    M = abs(float(solution.greatest_moment().value)) / beam.pieces
    senses = (1.0, -1.0) if beam.supports != "simple" else (1.0,)
    classified = max((class_in_bending(section, f_y, "y", sense) for sense in senses), key=lambda one: one.number)
    able = capacity(section, f_y, classified.number, 1, basis.gamma_M0, basis.eta, axes="y")
    W = float(able.M_y) * basis.gamma_M0 / f_y
    M_cr = min(critical_moment_of(beam, solution, M, sense) for sense in senses)
    return general_finding(beam, M, M_cr, W, f_y, classified, basis)


def critical_moment_of(beam: Beam, solution: BeamSolution, M: float, sense: float) -> float:
    """M_cr of one piece, N mm: the least of the lengths between places held; sense 1 compresses the top."""
    section = beam.section
    height = section.edges[3] - section.z_s if beam.load_height is None else beam.load_height
    softening = max(sense * wagner(section.shape), 0.0)
    found = []
    for start, end in pairwise(sorted({0.0, *beam.held_at, beam.span})):
        L = end - start
        lifted = height * force_within(solution.loads, start, end) / beam.pieces * 2 * L / (pi**2 * M)
        stiff = G * section.It + E * section.Iw * pi**2 / L**2
        found.append(critical_uniform_moment(stiff, softening, lifted, 1 / (E * section.Iz), L))
    return min(found)


def critical_moment_over(section: Any, length: float) -> float:
    """M_cr of one piece under its greatest moment all along, in the worse sense, loads at the shear centre, N mm."""
    stiff = G * section.It + E * section.Iw * pi**2 / length**2
    return critical_uniform_moment(stiff, wagner(section.shape), 0.0, 1 / (E * section.Iz), length)


def wagner(shape: Strips) -> float:
    """The integral of compression times r^2 under a moment 1 that compresses the top, r from the shear centre, mm."""
    ys, zs, filled = shape.grid
    (y_0, z_0), s = shape.centroid, shape.z_s
    y, z = ys - y_0, zs - z_0

    def powers(v: np.ndarray, n: int) -> np.ndarray:
        return (v[1:] ** n - v[:-1] ** n) / n

    across = powers(y, 3) @ filled @ powers(z, 2)
    along = powers(y, 1) @ filled @ (powers(z, 4) - 2 * s * powers(z, 3) + s**2 * powers(z, 2))
    return float(across + along) / shape.Iy
