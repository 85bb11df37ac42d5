"""One straight beam against sympy's beam module, an independent symbolic solution."""

import pytest
import sympy
from sympy.physics.continuum_mechanics.beam import Beam

from structcheck.analysis.beam import PointLoad, PointMoment, UniformLoad, solve

SPAN = 1200
LOADS = [PointLoad(30e3, 250), UniformLoad(40, 300, 750), PointMoment(8e6, 500), PointLoad(-9e3, 1000)]
EI = 210000 * 300e4


def symbolic(supports):
    """The same beam in sympy: exact rationals, loads positive upward there."""
    beam = Beam(SPAN, sympy.Integer(int(EI)), 1)
    R, M, S, N = sympy.symbols("R M S N")
    unknown = [R]
    beam.apply_load(R, 0, -1)
    if supports != "simple":
        beam.apply_load(M, 0, -2)
        unknown.append(M)
        beam.bc_slope = [(0, 0)]
    beam.bc_deflection = [(0, 0)]
    if supports != "cantilever":
        beam.apply_load(S, SPAN, -1)
        unknown.append(S)
        beam.bc_deflection = [(0, 0), (SPAN, 0)]
    if supports == "fixed":
        beam.apply_load(N, SPAN, -2)
        unknown.append(N)
        beam.bc_slope = [(0, 0), (SPAN, 0)]
    for load in LOADS:
        match load:
            case PointLoad(force, at):
                beam.apply_load(-sympy.Rational(force), at, -1)
            case UniformLoad(intensity, start, end):
                beam.apply_load(-sympy.Rational(intensity), start, 0, end=end)
            case PointMoment(moment, at):
                # Its moments turn the other way: positive ones raise the sagging moment.
                beam.apply_load(-sympy.Rational(moment), at, -2)
    beam.solve_for_reaction_loads(*unknown)
    return beam, {str(symbol): float(value) for symbol, value in beam.reaction_loads.items()}


@pytest.mark.parametrize("supports", ["simple", "fixed", "propped", "cantilever"])
def test_beam_agrees_with_the_symbolic_solution(supports):
    """Reactions, end moment, diagrams and deflection at ten places, without shear strain."""
    beam, reactions = symbolic(supports)
    found = solve(SPAN, supports, LOADS, EI)
    assert found.reaction_left == pytest.approx(reactions["R"], rel=1e-9)
    if "S" in reactions:
        assert found.reaction_right == pytest.approx(reactions["S"], rel=1e-9)
    if "M" in reactions:
        assert abs(found.moment_left) == pytest.approx(abs(reactions["M"]), rel=1e-9)
    x = sympy.Symbol("x")
    moment, deflection = beam.bending_moment(), beam.deflection()
    scale = abs(found.greatest_moment().value)
    for place in (10, 130, 249, 320, 480, 520, 700, 800, 999, 1190):
        assert abs(found.M(float(place))) == pytest.approx(abs(float(moment.subs(x, place))), abs=1e-9 * scale)
        assert found.w(float(place)) == pytest.approx(-float(deflection.subs(x, place)), rel=1e-8, abs=1e-9)
