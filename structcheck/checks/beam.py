"""A beam of one span under the jack: its own statics, then the cross-section, the stiffness, and what else it needs."""

from collections.abc import Sequence
from dataclasses import dataclass

from structcheck.analysis.beam import BeamSolution, PointLoad, UniformLoad, solve
from structcheck.checks.basis import Basis, Case, from_rated
from structcheck.checks.member_forms import form
from structcheck.checks.section_resistance import Station, check_member_section
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged
from structcheck.materials.steels import Steel
from structcheck.quantities import show
from structcheck.shapes.section import Section

E = 210_000.0
G = E / 2.6
"""Moduli of EN 1993-1-1 3.2.6, MPa; G from E and nu 0.3, a little under the rounded 81 000."""

NEEDED = (
    "bending",
    "shear",
    "bending and shear",
    "torsion",
    "lateral torsional buckling",
    "web under load",
    "tube face",
    "spreader plate",
    "yield at greatest force",
    "deflection",
    "brittle fracture",
    "fatigue",
)
"""Every check a beam can need; `needed` picks those of one beam."""

ADVISED = 500.0
"""Our advice where the user has no limit: L/500 for a coarse frame (common practice, no clause)."""

SAMPLES = 16
"""Stations inside a spread load, where bending with shear may be worst between its ends."""


@dataclass(frozen=True)
class Beam:
    """A beam as the press file describes it, lengths in mm.

    pieces    pieces side by side that share the load equally
    supports  simple, fixed, propped or cantilever
    limit     the user's greatest deflection; None: an answer, no verdict
    """

    name: str
    section: Section
    steel: Steel
    pieces: int = 1
    span: float = 0.0
    supports: str = "simple"
    limit: float | None = None


@dataclass(frozen=True)
class BeamLoad:
    """A load at rated force: N in all, downward; `at` its middle from the left support, `over` the length it covers."""

    load: float
    at: float
    over: float = 0.0


def needed(beam: Beam) -> tuple[str, ...]:
    """The checks this beam needs."""
    kind = form(beam.section)
    left_out = set()
    if kind not in ("i", "channel"):
        left_out.add("web under load")
    if kind not in ("hollow", "tube"):
        left_out.add("tube face")
    if beam.pieces == 1:
        left_out.add("spreader plate")
    if not twists(beam):
        left_out.add("torsion")
    return tuple(check for check in NEEDED if check not in left_out)


def twists(beam: Beam) -> bool:
    """Whether loads on the webs twist the pieces: channels, whose shear centre lies behind the web."""
    return form(beam.section) in ("channel", "other")


def check_beam(beam: Beam, loads: Sequence[BeamLoad], basis: Basis) -> Outcome:
    """Every check a beam needs, from its loads at rated force. Raises InputError where the description cannot be."""
    _validate(beam, loads)
    solution = solved(beam, loads)
    outcome = check_member_section(beam.name, beam.section, beam.steel, beam.pieces, stations(solution, basis), basis)
    outcome += _deflection(beam, solution)
    outcome += Outcome(does_not_apply=does_not_apply(beam, basis), assumptions=_assumptions(beam))
    return complete(outcome, beam.name, needed(beam), "this check is not made here yet")


def solved(beam: Beam, loads: Sequence[BeamLoad]) -> BeamSolution:
    """The statics of all pieces together at rated force."""
    lines = [
        UniformLoad(load.load / load.over, load.at - load.over / 2, load.at + load.over / 2)
        if load.over
        else PointLoad(load.load, load.at)
        for load in loads
    ]
    EI, GAs = beam.pieces * E * beam.section.Iy, beam.pieces * G * beam.section.Asz
    return solve(beam.span, beam.supports, lines, EI, GAs)


def stations(solution: BeamSolution, basis: Basis) -> list[Station]:
    """Internal forces at every place that can govern, in the three central cases."""
    places = [(s.x, V, M) for s in solution.stations() for V, M in ((s.V_left, s.M_left), (s.V_right, s.M_right))]
    for load in solution.loads:
        if isinstance(load, UniformLoad):
            step = (load.end - load.start) / SAMPLES
            inside = [load.start + step * k for k in range(1, SAMPLES)]
            places += [(x, float(solution.V(x)), float(solution.M(x))) for x in inside]
    places = list(dict.fromkeys(places))

    def make(case: Case, factor: float) -> list[Station]:
        return [Station(case, f"x = {show(x, 'mm')}", V_z=factor * V, M_y=factor * M) for x, V, M in places]

    return [station for case in from_rated(basis, make) for station in case]


def _deflection(beam: Beam, solution: BeamSolution) -> Outcome:
    most = solution.greatest_deflection()
    w, x = abs(float(most.value)), float(most.x)
    bending, shear = (abs(float(part)) for part in (solution.w_bending(x), solution.w_shear(x)))
    share = f"; L/{beam.span / w:.0f}" if w > 0 else ""
    text = f"{show(w, 'mm')} at x = {show(x, 'mm')} (bending {show(bending, 'mm')}, shear {show(shear, 'mm')}{share})"
    findings: tuple[Finding, ...] = ()
    never: tuple[NotNeeded, ...] = ()
    advice: tuple[str, ...] = ()
    if beam.limit is not None:
        source = "beam theory with shear (Timoshenko); the user's limit"
        findings = (judged(beam.name, "deflection", "rated", w, beam.limit, "mm", source, reason=text),)
    else:
        never = (NotNeeded(beam.name, "deflection", "no limit stated: the deflection is an answer"),)
        if w > beam.span / ADVISED:
            advised = f"L/500, {show(beam.span / ADVISED, 'mm')}"
            advice = (f"{beam.name}: deflection at rated load is over {advised}, our advice for a coarse frame",)
    return Outcome(findings, never, answers=(f"{beam.name}: deflection at rated load {text}",), advice=advice)


def does_not_apply(beam: Beam, basis: Basis) -> tuple[NotNeeded, ...]:
    """Checks of this beam that cannot occur, and why."""
    found = []
    kind = form(beam.section)
    if kind in ("hollow", "tube", "round"):
        found.append(
            ("lateral torsional buckling", "a closed or round section does not buckle sideways at press spans")
        )
    elif kind == "rectangle" and beam.section.shape.h <= beam.section.shape.b * (1 + 1e-9):
        found.append(("lateral torsional buckling", "a square bar is as stiff sideways"))
    if basis.static:
        found.append(("fatigue", "the user states static use"))
    return tuple(NotNeeded(beam.name, check, reason) for check, reason in found)


def _assumptions(beam: Beam) -> tuple[Assumption, ...]:
    found = []
    if beam.pieces > 1:
        found.append(f"the {beam.pieces} pieces share the load equally")
    return tuple(Assumption(beam.name, text) for text in found)


def _validate(beam: Beam, loads: Sequence[BeamLoad]) -> None:
    part = f'beam "{beam.name}"'
    problems = []
    if not beam.span > 0:
        problems.append(
            Problem("span", f"{beam.span:g} mm", "is no span", "a length above zero", 'span = "900 mm"', part)
        )
    if beam.pieces < 1:
        problems.append(Problem("pieces", str(beam.pieces), "is no count", "1 or more", "pieces = 2", part))
    if beam.limit is not None and not beam.limit > 0:
        problems.append(Problem("limit", f"{beam.limit:g} mm", "is no limit", "above zero", 'limit = "L/500"', part))
    for load in loads:
        low, high = load.at - load.over / 2, load.at + load.over / 2
        if beam.span > 0 and (low < -1e-9 * beam.span or high > (1 + 1e-9) * beam.span):
            given = f"{load.at:g} mm" + (f" over {load.over:g} mm" if load.over else "")
            wanted = f"a load that stands between 0 and {beam.span:g} mm"
            problems.append(Problem("at", given, "is off the beam", wanted, f'at = "{beam.span / 2:g} mm"', part))
    if not loads:
        problems.append(Problem("load", "", "is missing", "at least one load", 'load = "8 t"', part))
    if problems:
        raise InputError(problems)
