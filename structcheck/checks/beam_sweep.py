"""One beam question asked of many sections at once: the same formulas as `check_beam`, on arrays."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from structcheck.analysis.beam import BeamSolution
from structcheck.analysis.lateral import critical_factor
from structcheck.analysis.warping import Ends
from structcheck.checks.basis import Basis
from structcheck.checks.beam_description import Beam, BeamLoad, eccentricity
from structcheck.checks.beam_statics import places, solved_with
from structcheck.checks.beam_torsion import STATES, twist_of_beam
from structcheck.checks.member_class import section_class
from structcheck.checks.member_forms import THINNEST, E, G, clear_web, form, thickness
from structcheck.checks.member_interaction import bending_shear_factor, capacity
from structcheck.checks.member_lateral import can_buckle, curve_of
from structcheck.checks.member_stress import second_order_factor, stresses
from structcheck.checks.member_torsion import torsion_share
from structcheck.materials.steels import Steel
from structcheck.shapes.section import Section
from structcheck.shapes.sweep import gathered
from structcheck.standards.en1993_1_1 import buckling, classification, cross_section
from structcheck.standards.en1993_1_1 import lateral_torsional as lateral

CHECKS = (
    "bending",
    "shear",
    "bending and shear",
    "torsion",
    "lateral torsional buckling",
    "yield at greatest force",
    "deflection",
)
"""What a sweep judges; the rest of `beam.NEEDED` needs a look at the one section chosen."""

ELEMENTS = 4
"""Elements of a span for M_cr in a sweep: 0.1 % too high at most."""


def sweep_beam(
    beam: Beam, loads: Sequence[BeamLoad], basis: Basis, sections: Sequence[Section], steels: Mapping[str, Steel]
) -> dict[str, np.ndarray]:
    """Utilisations of `CHECKS`, one entry for each section; nan where `check_beam` would not check or not judge.

    beam    the beam; its section and steel are left aside, and so are holes and corrosion
    steels  the steel by route of production ("cold formed", "rolled", ...)
    """
    found = {check: np.full(len(sections), np.nan) for check in CHECKS}
    for where, shape in gathered(sections):
        if form(shape) in ("angle", "other") or beam.turned:
            continue
        kinds = [sections[k] for k in where]
        f_y = _strengths([steels[one.route] for one in kinds], thickness(shape))
        covered = np.array([steels[one.route].in_en1993 for one in kinds])
        covered &= np.min([element.t for element in shape.elements], axis=0) >= THINNEST
        routes = np.array([one.route for one in kinds])
        answers = _of_shape(replace(beam, section=shape), loads, basis, f_y, covered, routes)
        for check, values in answers.items():
            found[check][where] = values
    return found


def _strengths(steels: Sequence[Steel], t: np.ndarray) -> np.ndarray:
    f_y = np.full(len(t), np.nan)
    for steel in set(steels):
        mine = np.array([one == steel for one in steels])
        limits = np.array([step[0] for step in steel.steps])
        values = np.array([*(step[1] for step in steel.steps), np.nan])
        f_y[mine] = values[np.searchsorted(limits, t[mine])]
    return f_y


def _of_shape(
    beam: Beam, loads: Sequence[BeamLoad], basis: Basis, f_y: np.ndarray, covered: np.ndarray, routes: np.ndarray
) -> dict[str, Any]:
    shape: Any = beam.section
    n, k = beam.pieces, basis.ultimate
    solution = solved_with(beam, loads, n * E * shape.Iy, n * G * shape.Asz)
    states = STATES[beam.supports] if np.any(eccentricity(beam)) else STATES["simple"]
    at = places(solution)
    stations = at * len(states)
    V, M = (np.array([np.broadcast_to(s[which], f_y.shape) for s in stations]) for which in (2, 3))
    number = np.ones(f_y.shape)
    for sign in (1.0, -1.0):
        if np.any(sign * M > 0):
            number = np.maximum(number, section_class(shape, f_y, M_y=sign).number)
    covered = covered & (number <= 3)
    able = capacity(shape, f_y, number, n, basis.gamma_M0, basis.eta, axes="y")
    twisted = _twist(beam, solution, at, states)
    t = torsion_share(shape, f_y / basis.gamma_M0, k * twisted["T"] / n, k * twisted["T_w"] / n) if twisted else 0.0
    m, v = k * np.abs(M) / able.M_y, k * np.abs(V) / able.V_z + t
    stocky = np.ones(f_y.shape, bool)
    web = clear_web(shape, "z")
    if web is not None:
        stocky = web[0] / web[1] <= cross_section.shear_buckling_limit(classification.epsilon(f_y), basis.eta)
    both = 1 / bending_shear_factor(m, v, able.share_y)
    elastic = _elastic(shape, n, V, M, twisted)
    answers = {
        "bending": np.where(covered, m.max(axis=0), np.nan),
        "shear": np.where(covered & stocky, v.max(axis=0), np.nan),
        "bending and shear": np.where(covered & stocky, both.max(axis=0), np.nan),
        "yield at greatest force": basis.greatest * elastic / f_y,
    }
    if beam.limit is not None:
        answers["deflection"] = np.abs(solution.greatest_deflection().value) / beam.limit
    if np.any(_buckles(shape)):
        factor = _critical_factor(beam, loads)
        reduced = np.where(covered, _lateral(beam, basis, f_y, able.M_y, np.abs(M).max(axis=0), factor, routes), np.nan)
        answers["lateral torsional buckling"] = np.where(_buckles(shape), reduced, np.nan)
        if twisted:
            forces = {name: k * value / n for name, value in {"V_z": V, "M_y": M, **twisted}.items()}
            factors = second_order_factor(shape, f_y / basis.gamma_M0, factor / k, **forces)
            answers["torsion"] = np.where(covered, (1 / factors).max(axis=0), np.nan)
    return answers


def _buckles(shape: Any) -> Any:
    return shape.h > shape.b * (1 + 1e-9) if form(shape) == "rectangle" else can_buckle(shape)


def _twist(
    beam: Beam, solution: BeamSolution, stations: Sequence[tuple], states: Sequence[Ends]
) -> dict[str, np.ndarray]:
    if not np.any(eccentricity(beam)):
        return {}
    found = [twist_of_beam(beam, solution, x, side, ends) for ends in states for x, side, *_ in stations]
    rows = {"T": [one.T_t for one in found], "T_w": [one.T_w for one in found], "B": [one.B for one in found]}
    return {name: np.abs(np.array(values)) for name, values in rows.items()}


def _elastic(shape: Any, pieces: int, V: np.ndarray, M: np.ndarray, twisted: dict[str, np.ndarray]) -> np.ndarray:
    forces = {name: value / pieces for name, value in twisted.items()}
    _, stress = stresses(shape, V_z=V / pieces, M_y=M / pieces, **forces)
    return stress.max(axis=(0, 1))


def _critical_factor(beam: Beam, loads: Sequence[BeamLoad]) -> np.ndarray:
    """Factor on the rated loads at which each section buckles; where supports are built in, that of a slender beam."""
    shape: Any = beam.section
    return critical_factor(
        solved_with(beam, loads, 1.0, np.inf),
        EIz=beam.pieces * E * shape.Iz,
        EIw=beam.pieces * E * shape.Iw,
        GIt=beam.pieces * G * shape.It,
        height=shape.edges[3] if beam.load_height is None else beam.load_height,
        held=beam.held_at,
        elements=ELEMENTS,
    )


def _lateral(
    beam: Beam,
    basis: Basis,
    f_y: np.ndarray,
    M_c: np.ndarray,
    M: np.ndarray,
    factor: np.ndarray,
    routes: np.ndarray,
) -> np.ndarray:
    """Utilisation by lateral torsional buckling, from the greatest moment M at rated force and the critical factor."""
    shape: Any = beam.section
    M_Rk = M_c * basis.gamma_M0
    lambda_LT = lateral.slenderness(M_Rk / f_y, f_y, factor * M)
    deep = np.broadcast_to(shape.h / shape.b > 2 if form(shape) == "i" else False, f_y.shape)
    pairs = zip(routes, deep, strict=True)
    curves = [curve_of(shape, beam.lateral_method, route=route, deep=bool(is_deep)) for route, is_deep in pairs]
    alpha = np.array([buckling.IMPERFECTION[name] for name in curves])
    if beam.lateral_method == "rolled" and form(shape) == "i":
        plateau, chi = 0.4, lateral.reduction_rolled(lateral.phi_rolled(alpha, lambda_LT), lambda_LT)
    else:
        plateau, chi = 0.2, lateral.reduction_general(lateral.phi_general(alpha, lambda_LT), lambda_LT)
    chi = np.where(lambda_LT <= plateau, 1.0, chi)
    return basis.ultimate * M / (chi * M_Rk / basis.gamma_M1)
