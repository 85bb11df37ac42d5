"""An upright of the frame: pulled by the jack, bent by what joins it."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal, NamedTuple

from structcheck.checks.basis import Basis, Case
from structcheck.checks.member_brittle import QUALITIES, check_brittle
from structcheck.checks.member_buckling import Lengths
from structcheck.checks.member_column import Column, Pressed, check_member_column
from structcheck.checks.member_corrosion import corroded
from structcheck.checks.member_fatigue import check_member_fatigue
from structcheck.checks.member_forms import form, require_en1993, thickness
from structcheck.checks.member_holes import Holes, Net, drilled_wall, said_across, undrilled, validate
from structcheck.checks.member_stress import Elastic, along_member
from structcheck.checks.section_resistance import Station, check_member_section
from structcheck.checks.upright_lateral import upright_lateral
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.section import Section
from structcheck.standards.en1993_1_1 import cross_section, net_section

NEEDED = (
    "axial",
    "axial and bending",
    "net section",
    "flexural buckling",
    "lateral torsional buckling",
    "yield at greatest force",
    "brittle fracture",
    "fatigue",
)


SHEARED = "what bends it in its web's plane does so through the shear centre, or tied pieces take the twist"
"""Said of a channel whose shear nobody placed: on its web it would turn it."""


@record
class Upright:
    """An upright as the press file describes it, mm; the pieces share the forces equally.

    hole, holes  diameter, and walls drilled through at one cross-section of a piece; None: no holes
    hole_offset  of the holes from the middle line
    quality      JR, J0, J2, K2; None: not stated
    detail       fatigue detail (see `fatigue.DETAILS`), or "unknown"; None: not stated
    corrosion    metal lost from every face
    buckling_length, buckling_length_across  about the strong and the weak axis, where it is pushed; None: its length
    """

    name: str
    section: Section
    steel: Steel
    pieces: int = 1
    length: float = 0.0
    hole: float | None = None
    holes: int = 1
    hole_offset: float = 0.0
    quality: Literal["JR", "J0", "J2", "K2"] | None = None
    detail: str | None = None
    corrosion: float = 0.0
    buckling_length: float | None = None
    buckling_length_across: float | None = None


class UprightLoads(NamedTuple):
    """Forces in one case, all pieces together: pull in N (tension positive), moments in N mm.

    moment    about the strong axis
    moment_z  about the weak axis
    """

    case: Case
    pull: float
    moment: float = 0.0
    moment_z: float = 0.0


def check_upright(
    upright: Upright, loads: Sequence[UprightLoads], basis: Basis, inside: Sequence[Station] = ()
) -> Outcome:
    """Every check an upright needs. Raises InputError where the description cannot be.

    inside  internal forces of a frame analysis, shear and twist included, in place of the loads' own
    """
    _validate(upright)
    stock, upright = upright.section, replace(upright, section=corroded(upright.section, upright.corrosion))
    name, section = upright.name, upright.section
    holes = None if upright.hole is None else Holes(upright.hole, upright.holes, upright.hole_offset)
    net = None
    if holes is not None:
        validate(f'upright "{name}"', section, holes)
        net = Net(section, holes)
    stations = list(inside) or [
        Station(load.case, "over its length", N=load.pull, M_y=load.moment, M_z=load.moment_z) for load in loads
    ]
    elastic = Elastic(section if net is None else net, stations, upright.pieces)
    outcome = check_member_section(
        name, section, upright.steel, upright.pieces, stations, basis, bent=net, elastic=elastic
    )
    outcome += upright_lateral(name, section, upright.steel, upright.pieces, upright.length, stations, basis, net)
    outcome += _column(upright, stations, basis)
    if form(section) == "channel" and any(s.V_z for s in inside) and not any(s.B for s in inside):
        outcome += Outcome(assumptions=(Assumption(name, SHEARED, SHEARED),))
    if holes is not None:
        outcome += Outcome((_net_section(upright, holes, loads, basis),))
    try:
        rated = elastic.greatest("rated")
    except NotCovered as reason:
        checks = ("brittle fracture", "fatigue")
        return _finished(upright, loads, outcome + Outcome(tuple(not_checked(name, c, str(reason)) for c in checks)))
    if rated is not None:
        outcome += check_brittle(name, stock, upright.steel, upright.quality, rated.value, basis)
        outcome += check_member_fatigue(name, section, upright.detail, rated.value, basis, drilled=holes is not None)
    return _finished(upright, loads, outcome)


def _column(upright: Upright, stations: Sequence[Station], basis: Basis) -> Outcome:
    """Buckling where it is pushed; nothing else where it is not."""
    if not any(s.N < 0 for s in stations):
        return Outcome()
    pressed = [Pressed(s.case, -s.N, s.M_y, s.M_z) for s in along_member(stations) if s.N < 0]
    # Both ends held in place, free to turn: the longest a member of a braced frame can buckle at.
    about = [
        upright.length if one is None else one for one in (upright.buckling_length, upright.buckling_length_across)
    ]
    column = Column(Lengths(about[0], about[1], upright.length))
    text = "buckling: its ends are held in place and against twisting"
    text += ", and free to turn" if upright.length in about else ", buckling lengths as stated"
    found = check_member_column(upright.name, upright.section, upright.steel, upright.pieces, column, pressed, basis)
    return found + Outcome(assumptions=(Assumption(upright.name, text),))


def _finished(upright: Upright, loads: Sequence[UprightLoads], outcome: Outcome) -> Outcome:
    """The outcome with what does not apply, what was assumed, and what is still owed."""
    outcome += Outcome(does_not_apply=_does_not_apply(upright, loads), assumptions=_assumptions(upright))
    return complete(outcome, upright.name, NEEDED, "not judged here for these loads")


def _net_section(upright: Upright, holes: Holes, loads: Sequence[UprightLoads], basis: Basis) -> Finding:
    check = "net section"
    section, steel = upright.section, upright.steel
    try:
        require_en1993(section, steel)
        f_u = steel.f_u(thickness(section))
    except NotCovered as reason:
        return not_checked(upright.name, check, str(reason))
    A_net = net_section.net_area(section.A, holes.count, holes.diameter, drilled_wall(section, holes))
    N_u = float(upright.pieces * cross_section.net_axial_resistance(A_net, f_u, basis.gamma_M2))
    reason = f"A_net {upright.pieces * A_net:.0f} mm2, f_u {f_u:g} MPa"
    source = f"{net_section.CODE} (6.7)"
    most = max((load for load in loads if load.case.limit == "ultimate"), key=lambda load: max(load.pull, 0.0))
    return judged(upright.name, check, most.case.name, max(most.pull, 0.0), N_u, "kN", source, reason=reason)


def _does_not_apply(upright: Upright, loads: Sequence[UprightLoads]) -> tuple[NotNeeded, ...]:
    found = []
    if upright.hole is None:
        found.append(("net section", "no holes stated"))
    if all(load.pull >= 0 for load in loads):
        found.append(("flexural buckling", "a member in tension does not buckle"))
    if not any(load.pull for load in loads):
        found.append(("axial", "no axial force"))
    if not any((load.moment and load.moment_z) or ((load.moment or load.moment_z) and load.pull) for load in loads):
        found.append(("axial and bending", "no axial force and moment together"))
    return tuple(NotNeeded(upright.name, check, reason) for check, reason in found)


def _assumptions(upright: Upright) -> tuple[Assumption, ...]:
    found = []
    if upright.pieces > 1:
        found.append(f"the {upright.pieces} pieces share the force equally")
    if upright.hole is not None:
        found += said_across(upright.section, Holes(upright.hole, upright.holes, upright.hole_offset))
    if upright.corrosion:
        found.append(f"{upright.corrosion:g} mm lost from every face")
    assumed = tuple(Assumption(upright.name, text) for text in found)
    if form(upright.section) not in ("angle", "channel", "other"):
        return assumed
    # EN 1993-1-1 6.2.3(5): an angle held by one leg, a channel by its web, is bent by its own pull.
    text = "the pull runs through the centroid: it is not held by one leg or by its web alone"
    return (*assumed, Assumption(upright.name, text, text))


def _validate(upright: Upright) -> None:
    part = f'upright "{upright.name}"'
    problems = []
    if upright.pieces < 1:
        problems.append(Problem("pieces", str(upright.pieces), "is no count", "1 or more", "pieces = 2", part))
    if upright.quality is not None and upright.quality not in QUALITIES:
        given = f'"{upright.quality}"'
        problems.append(Problem("quality", given, "is no quality", ", ".join(QUALITIES), 'quality = "JR"', part))
    problems += undrilled(part, upright.hole, upright.holes, upright.hole_offset)
    if problems:
        raise InputError(problems)
