"""Which figures a press has: those of the frame, and those of each part, from the description that was checked."""

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from structcheck.checks.basis import Case
from structcheck.checks.beam import solved
from structcheck.checks.bolts_group import BoltLoads
from structcheck.checks.weld_group import RunGroupLoads
from structcheck.errors import StructcheckError
from structcheck.findings import Finding, Result
from structcheck.press.cases import Forces
from structcheck.press.frame.demands import FrameAnswer
from structcheck.press.frame.ringed import solved_ring
from structcheck.press.frame.solving import Ringed
from structcheck.press.joints import bolt_loads, run_group, run_group_loads
from structcheck.press.load_path import frame_answer
from structcheck.press.mechanism import spring_of
from structcheck.press.parts import Setting, beam_of, bolt_group, newtons, weld_of
from structcheck.press.schema import PressFile
from structcheck.report.figures import Figure, Panel
from structcheck.report.figures_beam import beam_figure
from structcheck.report.figures_bolts import bolts_figure
from structcheck.report.figures_frame import figures_of_frame
from structcheck.report.figures_frame_lines import states_figures
from structcheck.report.figures_spring import spring_figure
from structcheck.report.figures_weld import weld_figure
from structcheck.report.figures_weld_group import run_group_figure


def part_figures(press: PressFile, setting: Setting, result: Result, answer: FrameAnswer | None) -> dict[str, Figure]:
    """Part -> its figure. A part that cannot be drawn has none; what was judged of it stands in its table."""
    uses: dict[str, float | None] = {}
    for finding in reversed(result.ranked):
        uses[finding.part] = finding.utilisation
    found: dict[str, Figure] = {}
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
        loads = _governing(bolt_loads(table, answer), table.name, result, _OF_BOLTS)
    else:
        shear, tension = newtons(table.shear, setting, "shear"), newtons(table.tension, setting, "tension")
        factor = setting.basis.ultimate
        loads = BoltLoads(Case("ultimate", "ultimate"), shear * factor, table.eccentricity, tension * factor)
    return bolts_figure(name, group, loads, use)


_OF_BOLTS = ("bolt shear", "bolt bearing", "bolt shear and tension", "bolt tension")

Load = TypeVar("Load", BoltLoads, RunGroupLoads)


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
        return run_group_figure(name, run_group(table, setting), load, use)
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


_DRAWN: dict[str, Callable[..., Figure | None]] = {
    "beam": _beam,
    "bolts": _bolts,
    "weld": _weld,
    "spring": _spring,
}


RINGS = ("closed", "H", "posts")
"""Shapes that are a ring of two beams and two uprights, and can be drawn as one."""


def frame_of(press: PressFile, setting: Setting, forces: Forces) -> tuple[FrameAnswer | None, Ringed | None]:
    """What the frame answers, and the solved ring where it is one; nothing where no frame is described."""
    if press.frame is None:
        return None, None
    if press.frame.shape in RINGS:
        return solved_ring(press, press.jack, forces, setting.basis, press.limits, setting.sections)
    return frame_answer(press, forces, setting), None


def frame_figures(
    press: PressFile, result: Result, ringed: Ringed | None, forces: Forces
) -> tuple[Figure | Panel, ...]:
    """The figures of the frame; none where it is no ring."""
    return tuple(figures_of_frame(press, result, ringed, forces.rated)) if ringed else ()


def state_figures(ringed: Ringed | None, forces: Forces) -> tuple[Panel, ...]:
    """The moments of a ring in each state of its corners, where there are several."""
    return tuple(states_figures(ringed, forces.rated)) if ringed else ()
