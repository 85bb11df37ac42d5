"""A C-frame cut from plate: statics of its arms and back, its corners as curved bars, how far it yawns."""

from collections.abc import Sequence
from functools import cached_property

import numpy as np

from structcheck.analysis.frame import Frame, Member, NodeLoad, Result, Support, solve
from structcheck.checks.section_resistance import Station
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Finding, Outcome, judged, not_checked
from structcheck.press.cases import Forces
from structcheck.press.frame import answers, own_weight, stability
from structcheck.press.frame.envelope import Combination, Level, case_of
from structcheck.press.frame.given import Given
from structcheck.press.frame.keeping import loose_things, retention
from structcheck.press.frame.lines import KINDS, lines_of
from structcheck.press.frame.off_centre import Offsets, Position, Push, offsets
from structcheck.press.frame.plates import (
    CornerCase,
    Corners,
    corner_outcome,
    jack_or_error,
    opened,
    plain,
    plate_table,
    section_of,
    throat_cuts,
)
from structcheck.press.frame.racking import racking
from structcheck.press.frame.sideways import Throat, c_stand, sideways
from structcheck.press.frame.solving import levels_of
from structcheck.press.frame.understood import E, G
from structcheck.press.frame.words import FrameAnswer, FramePart, PlaceForce
from structcheck.press.frame_schema import FrameTables, PlateFrame
from structcheck.press.schema import Jack
from structcheck.quantities import G_N
from structcheck.record import record
from structcheck.showing import show


@record
class SolvedThroat:
    """A C-frame with its corners in every case, and its arms and back under 1 N in the middle."""

    throat: Throat
    corners: Corners

    @cached_property
    def result(self) -> Result:
        """Case "force" pushes the arms apart by 1 N at the force's line."""
        return _arms(self.throat)


def solved_c(given: Given) -> tuple[FrameAnswer, SolvedThroat]:
    """The demands of a C-frame, and what was solved for those who draw it. Raises InputError."""
    tables, jack, forces, basis = given.tables, given.jack, given.forces, given.basis
    plate = plate_table(tables, "reach")
    if jack.count > 1:
        fault, wanted = "is more than a C-frame is counted for", "1; or the frame as nodes and members"
        raise InputError(Problem("count", f"{jack.count}", fault, wanted, "count = 1", "jack"))
    if given.limits is not None and given.limits.deflection is not None:
        fault, wanted = 'has no meaning for shape = "C"', "opening: how far the throat may yawn"
        raise InputError(Problem("deflection", "", fault, wanted, 'opening = "1 mm"', "limits"))
    throat = Throat(plate, opened(tables))
    jack_or_error(jack, plate, throat.opening)
    off = offsets(jack, tables.frame, plate.reach)
    stand = c_stand(throat, tables)
    heavy = own_weight.is_heavy(stand.mass, forces)
    weight = stand.mass * G_N * own_weight.per_newton(forces) if heavy else 0.0
    levels = levels_of(forces)
    heavier = own_weight.raised(levels, weight)
    combined = [Combination(position, "", np.zeros(0)) for position in _positions(off)]
    outcome = Outcome(assumptions=(*off.assumptions, *_modelling(throat)))
    corners = Corners(plate, tuple(_corners(throat, combined)), heavier)
    outcome += corner_outcome(plate, corners.cases, heavier, basis)
    outcome += _stiffness(throat, given)
    outcome += sideways(throat, heavier[0], combined, basis)
    outcome += stability.tipping(stand, tables.feet)
    outcome += Outcome(assumptions=(own_weight.said(stand.mass, forces),))
    outcome += _racking(tables, jack, off, forces)
    outcome += retention(tables, loose_things(tables))
    pushed = tuple(
        PlaceForce(case_of(level, c), level.force, c.position.head[0].x, c.position.head[0].y)
        for level in levels
        for c in combined
        if c.position.central or not level.central_only
    )
    answer = FrameAnswer(
        stations=_stations(throat, combined, heavier),
        ends={},
        forces={"upper arm/load": pushed, "lower arm/load": pushed, "platen": pushed},
        members=_members(throat),
        off=off,
        needed=(
            ("lower arm/load", "what the jack's foot stands on"),
            ("upper arm/load", "what the work bears on"),
            ("platen", "platen"),
        ),
        outcome=outcome,
        drawing=draw(throat),
        opening=throat.opening,
        stood_on=frozenset({"lower arm" if tables.frame.jack_on == "bed" else "upper arm"}),
    )
    return answer, SolvedThroat(throat, corners)


def _positions(off: Offsets) -> tuple[Position, ...]:
    """Central and off centre in line: `right` is away from the back, the harder way."""
    found = [Position("", (Push(1.0),), (Push(1.0),), central=True)]
    for side, x, y in (("right", off.plane, 0.0), ("front", 0.0, -off.across), ("back", 0.0, off.across)):
        if x or y:
            push = (Push(1.0, x, y),)
            found.append(Position(f"off centre in line, {side}", push, push))
    return tuple(found)


def _corners(throat: Throat, combined: Sequence[Combination]) -> list[CornerCase]:
    plate = throat.plate
    return [
        CornerCase(
            f"{name} corner", c, throat_cuts(plate, arm, plate.reach + c.position.head[0].x, c.position.head[0].y)
        )
        for c in combined
        for name, arm in (("upper", plate.upper), ("lower", plate.lower))
    ]


def _stations(
    throat: Throat, combined: Sequence[Combination], levels: Sequence[Level]
) -> dict[str, tuple[Station, ...]]:
    """Back and arms; strong axis in the frame's plane, a moment that opens the throat positive."""
    found: dict[str, list[Station]] = {"back": [], "upper arm": [], "lower arm": []}
    for level in levels:
        for c in combined:
            if level.central_only and not c.position.central:
                continue
            case, F, push = case_of(level, c), level.force, c.position.head[0]
            M, across = F * (throat.lever + push.x), F * push.y
            found["back"].append(Station(case, "over its height", N=F, M_y=M, M_z=across))
            reach = throat.plate.reach + push.x
            for arm in ("upper arm", "lower arm"):
                found[arm].append(Station(case, "at the back's inner edge", V_z=F, M_y=F * reach, T=across))
    return {name: tuple(rows) for name, rows in found.items()}


def _members(throat: Throat) -> dict[str, FramePart]:
    plate = throat.plate
    table = plain(plate)
    return {
        name: FramePart(section_of(plate, depth), plate.steel, plate.pieces, length, "plate", table)
        for name, depth, length in (
            ("back", plate.back, throat.height),
            ("upper arm", plate.upper, throat.lever),
            ("lower arm", plate.lower, throat.lever),
        )
    }


def yawn(throat: Throat) -> tuple[dict[str, float], float]:
    """(opening at the force's line by kind, turn of one arm against the other), mm and rad for 1 N."""
    work = lines_of(_arms(throat)).work()
    opening = {kind: float(value) for kind, value in zip(KINDS, work[:, 0, 0], strict=True)}
    return opening, float(work[:, 0, 1].sum())


def _arms(throat: Throat) -> Result:
    """Arms and back along their centre-lines, pushed apart at the force's line, and turned there."""
    nodes = {
        "tip/lower": (throat.lever, 0.0, 0.0),
        "back/lower": (0.0, 0.0, 0.0),
        "back/upper": (0.0, 0.0, throat.height),
        "tip/upper": (throat.lever, 0.0, throat.height),
    }
    plate = throat.plate
    members = [
        _bar("lower arm", "back/lower", "tip/lower", plate, plate.lower),
        _bar("back", "back/lower", "back/upper", plate, plate.back),
        _bar("upper arm", "back/upper", "tip/upper", plate, plate.upper),
    ]
    frame = Frame(nodes, members, [Support("back/lower", "x y z rx ry rz")])
    loads = {
        "force": [NodeLoad("tip/upper", (0, 0, 1.0)), NodeLoad("tip/lower", (0, 0, -1.0))],
        "turn": [NodeLoad("tip/upper", moment=(0, -1.0, 0)), NodeLoad("tip/lower", moment=(0, 1.0, 0))],
    }
    return solve(frame, loads)


def _bar(name: str, start: str, end: str, plate: PlateFrame, depth: float) -> Member:
    s, n = section_of(plate, depth), plate.pieces
    up = None if name != "back" else (1.0, 0.0, 0.0)
    return Member(name, start, end, E, G, n * s.A, n * s.Iy, n * s.Iz, n * s.It, n * s.Asy, n * s.Asz, up)


def _stiffness(throat: Throat, given: Given) -> Outcome:
    forces, limits = given.forces, given.limits
    opening, turn = yawn(throat)
    total, R = sum(opening.values()), forces.rated
    words = {"bending": "bending", "shear": "shear", "axial": "stretch of the back"}
    split = ", ".join(f"{text} {opening[kind] * R:.3f}" for kind, text in words.items())
    texts = [
        f"yawn at the force's line at rated force: {total * R:.3f} mm ({split})",
        f"arms out of parallel at rated force: {abs(turn) * R * 1e3:.2f} mm per m",
    ]
    proof = min(given.basis.proof_factor * R, forces.greatest)
    both = [f"{total * force:.2f} mm at {show(force, 'kN')}" for force in (R, proof)]
    texts.append(f"dial across the throat at the force's line: {', '.join(both)} (rated, proof)")
    texts += answers.energy(total, forces, given.jack)
    findings: tuple[Finding, ...] = ()
    if limits and limits.opening is not None:
        findings = (judged("frame", "opening", "rated", total * R, limits.opening, "mm", answers.SOURCE),)
    return Outcome(findings, answers=tuple(texts))


def _racking(tables: FrameTables, jack: Jack, off: Offsets, forces: Forces) -> Outcome:
    if tables.guides is not None and tables.guides.on != "ram":
        reason = "guides of a C-frame hang on one arm; what they do to it is not covered here"
        return Outcome((not_checked("frame", "racking", reason),))
    return racking(tables, jack, off, forces, (), ())


def _modelling(throat: Throat) -> list[Assumption]:
    texts = [
        "C-frame: arms and back run along their centre-lines; the corners' own extra give is left out, "
        "the arms counted to the back's centre-line in its place",
        "off centre: away from the back and across; nearer the back is easier",
    ]
    return [Assumption("frame", text) for text in texts]


def draw(throat: Throat) -> str:
    """The C-frame with its measures, not to scale."""
    p = throat.plate
    pieces = f"{p.pieces} x " if p.pieces > 1 else ""
    return "\n".join(
        [
            f"======================  upper arm {p.upper:g} mm deep",
            "||      (",
            f"||       inner radius {p.radius:g} mm",
            f"||  back {p.back:g} mm deep     opening {throat.opening:g} mm",
            f"||  plate {pieces}{p.thickness:g} mm",
            "||      (",
            f"======================  lower arm {p.lower:g} mm deep",
            f"  |<-- reach {p.reach:g} mm -->| line of the force",
        ]
    )
