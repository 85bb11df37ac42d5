"""Which figures a press has: those of the frame, and those of each part, from the description that was checked."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any, TypeVar

from structcheck.checks.basis import Case
from structcheck.checks.beam import solved
from structcheck.checks.bolts_group import BoltLoads
from structcheck.checks.pin_part import PinLoads
from structcheck.checks.platen_plate import shape_of
from structcheck.checks.weld_group import RunGroupLoads
from structcheck.errors import StructcheckError
from structcheck.findings import Finding, Result
from structcheck.press.bolt_spans import spanned
from structcheck.press.cases import Forces
from structcheck.press.frame.c_frame import solved_c
from structcheck.press.frame.demands import FrameAnswer
from structcheck.press.frame.given import Given
from structcheck.press.frame.members import solved_members
from structcheck.press.frame.o_frame import solved_o
from structcheck.press.frame.ringed import solved_ring
from structcheck.press.joints import bolt_loads, lever_across, pin_pulls, platen_at, platen_pressed
from structcheck.press.lapped import companions_of, off_line
from structcheck.press.mechanism import spring_of
from structcheck.press.parts import (
    Setting,
    beam_of,
    bolt_group,
    newtons,
    pin_loads,
    pin_of,
    platen_loads,
    platen_of,
    weld_of,
)
from structcheck.press.placed_welds import run_group, run_group_loads
from structcheck.press.schema import PressFile
from structcheck.record import record
from structcheck.report.figures import Figure, Panel
from structcheck.report.figures_beam import beam_figure
from structcheck.report.figures_bolts import bolts_figure
from structcheck.report.figures_frame import understood
from structcheck.report.figures_frame_axes import skeleton_of
from structcheck.report.figures_frame_lines import lines_figures, states_figures
from structcheck.report.figures_nodes import nodes_figure, nodes_skeleton
from structcheck.report.figures_pin import pin_figure
from structcheck.report.figures_plate_frame import plate_figures, ring_outline, throat_outline, throat_skeleton
from structcheck.report.figures_platen import platen_figure
from structcheck.report.figures_skeleton import Skeleton
from structcheck.report.figures_spring import spring_figure
from structcheck.report.figures_weld import weld_figure
from structcheck.report.figures_weld_group import run_group_figure


def part_figures(
    press: PressFile, setting: Setting, result: Result, answer: FrameAnswer | None
) -> dict[str, Figure | Panel]:
    """Part -> its figure. A part that cannot be drawn has none; what was judged of it stands in its table."""
    uses: dict[str, float | None] = {}
    for finding in reversed(result.ranked):
        uses[finding.part] = finding.utilisation
    found: dict[str, Figure | Panel] = {}
    for kind, draw in _DRAWN.items():
        for table in getattr(press, kind):
            name = f"figure-{len(found) + 1}"
            try:
                figure = draw(name, table, setting, answer, result, uses.get(table.name))
            except StructcheckError:
                continue
            if figure is not None:
                found[table.name] = figure
    return found


def _beam(name: str, table: Any, setting: Setting, *_: Any) -> Figure:
    beam, loads, _found = beam_of(table, setting)
    return beam_figure(name, solved(beam, loads))


def _bolts(
    name: str, table: Any, setting: Setting, answer: FrameAnswer | None, result: Result, use: float | None
) -> Figure:
    group = bolt_group(table, setting)
    if answer is not None and table.at is not None:
        off = off_line(table, answer, setting, companions_of(table, setting))
        lever = lever_across(spanned(table, group, answer)[0])
        loads = _governing(bolt_loads(table, answer, off, lever), table.name, result, _OF_BOLTS)
    else:
        shear, tension = newtons(table.shear, setting, "shear"), newtons(table.tension, setting, "tension")
        factor = setting.basis.ultimate
        loads = BoltLoads(Case("ultimate", "ultimate"), shear * factor, table.eccentricity, tension * factor)
    return bolts_figure(name, group, loads, use)


_OF_BOLTS = ("bolt shear", "bolt bearing", "bolt shear and tension", "bolt tension")

Load = TypeVar("Load", BoltLoads, RunGroupLoads, PinLoads)


def _governing(cases: Sequence[Load], part: str, result: Result, checks: tuple[str, ...]) -> Load:
    """The case by which the bolts or runs themselves are worked hardest."""
    first = next((f.case for f in result.ranked if f.part == part and f.check in checks), "")
    ultimate = [load for load in cases if load.case.limit == "ultimate"]
    return next((load for load in cases if load.case.name == first), ultimate[0] if ultimate else cases[0])


def _weld(
    name: str, table: Any, setting: Setting, answer: FrameAnswer | None, result: Result, use: float | None
) -> Figure | None:
    if answer is not None and table.at is not None:
        load = _governing(run_group_loads(table, answer), table.name, result, ("weld throat",))
        return run_group_figure(name, run_group(table, answer, setting), load, use)
    if table.along is None and table.across is None:
        return None
    along, across = newtons(table.along, setting, "along"), newtons(table.across, setting, "across")
    factor = setting.basis.ultimate
    return weld_figure(name, weld_of(table, setting), along * factor, across * factor, "ultimate", use)


def _spring(name: str, table: Any, setting: Setting, _answer: Any, result: Result, _use: Any) -> Figure | None:
    spring, _beside = spring_of(table, setting)
    return spring_figure(name, spring, _gap(result.findings, table.name))


def _gap(findings: tuple[Finding, ...], part: str) -> float | None:
    """The clearance before solid that was asked for."""
    for finding in findings:
        if finding.part == part and finding.check == "spring clearance before solid" and finding.demand:
            return finding.demand.value
    return None


def _pin(
    name: str, table: Any, setting: Setting, answer: FrameAnswer | None, result: Result, use: float | None
) -> Panel:
    placed = answer is not None and table.at is not None
    loads = pin_pulls(table, answer) if placed else pin_loads(table, setting)
    return pin_figure(name, pin_of(table, setting), _governing(loads, table.name, result, _OF_PINS), use)


_OF_PINS = ("pin shear", "pin bending", "pin shear and bending", "pin bearing")


def _platen(
    name: str, table: Any, setting: Setting, answer: FrameAnswer | None, _result: Result, use: float | None
) -> Panel | None:
    if answer is not None and table.load is None:
        part, loads = platen_at(table, setting), platen_pressed(table, answer, setting)
    else:
        part, loads = platen_of(table, setting), platen_loads(table, setting)
    if part.bearers is None and part.pushed is None and answer is not None:
        return None
    rated = next(load for load in loads if load.case.limit == "rated")
    return platen_figure(name, part, rated, shape_of(part, rated), use)


_DRAWN: dict[str, Callable[..., Figure | Panel | None]] = {
    "platen": _platen,
    "beam": _beam,
    "bolts": _bolts,
    "weld": _weld,
    "pin": _pin,
    "spring": _spring,
}


@record
class Drawn:
    """A frame as it is drawn: what it answers, its lines, and the figures that only its shape has."""

    answer: FrameAnswer
    lines: Skeleton
    outline: Callable[[Result], Iterator[Figure]]

    def figures(self, result: Result, forces: Forces) -> tuple[Figure | Panel, ...]:
        """The frame as it was understood, how it moves, what runs in it."""
        return (*self.outline(result), *lines_figures(self.lines, forces.rated))

    def states(self, forces: Forces) -> tuple[Panel, ...]:
        """The moments in each state of its joints, where there are several."""
        return tuple(states_figures(self.lines, forces.rated))


def frame_of(press: PressFile, setting: Setting, forces: Forces) -> Drawn | None:
    """The described frame, solved once more for those who draw it; nothing where none is described."""
    if press.frame is None:
        return None
    given = Given(press, press.jack, forces, setting.basis, press.limits, setting.sections)
    return _SHAPES[press.frame.shape](press, given)


def _ring(press: PressFile, given: Given) -> Drawn:
    answer, ringed = solved_ring(given)
    return Drawn(answer, skeleton_of(ringed), lambda result: iter((understood(press, result, ringed),)))


def _window(_press: PressFile, given: Given) -> Drawn:
    answer, ringed, corners = solved_o(given)
    outline = ring_outline(corners.plate, ringed)
    return Drawn(answer, skeleton_of(ringed), lambda result: plate_figures(outline, corners, result))


def _throat(press: PressFile, given: Given) -> Drawn:
    answer, solved = solved_c(given)
    arms = {"upper arm": press.upper, "lower arm": press.lower}
    outline = throat_outline(solved, {name: edge.beyond if edge else None for name, edge in arms.items()})
    return Drawn(answer, throat_skeleton(solved), lambda result: plate_figures(outline, solved.corners, result))


def _nodes(_press: PressFile, given: Given) -> Drawn:
    answer, solved = solved_members(given)
    lines = nodes_skeleton(solved)
    return Drawn(answer, lines, lambda result: iter((nodes_figure(solved, lines, result),)))


_SHAPES: dict[str, Callable[[PressFile, Given], Drawn]] = {
    "closed": _ring,
    "H": _ring,
    "posts": _ring,
    "C": _throat,
    "O": _window,
    "members": _nodes,
}
