"""Guides that slide on the uprights: what they push on is the uprights' own wall, which the frame does not judge."""

from typing import Any

from structcheck.checks.member_forms import form, thickness
from structcheck.findings import Assumption, Outcome, not_checked
from structcheck.materials.steels import find_steel
from structcheck.press.frame.off_centre import offsets
from structcheck.press.mechanism_schema import GuideTable
from structcheck.press.setting import Setting
from structcheck.shapes.library import look_up

WALL = "guide wall bending"
SOLID = ("rectangle", "round")


def on_uprights(table: GuideTable, setting: Setting) -> tuple[dict[str, Any], Outcome]:
    """What the uprights say of a guide that slides on them, and what of them nobody can judge from it."""
    press = setting.press
    if press is None or press.guides is None or press.guides.on != "uprights" or press.uprights is None:
        return {}, Outcome()
    judged_in_frame = {"posts_judged": True}
    if press.uprights.section is None:
        return judged_in_frame, Outcome()
    section = look_up(press.uprights.section, setting.sections).section
    kind = form(section)
    if kind in SOLID:
        return judged_in_frame, Outcome()
    if kind != "hollow":
        reason = f"{section.designation} is no tube: a [[flange]] judges what the guide pushes on, with its side force"
        return judged_in_frame, Outcome((not_checked(table.name, WALL, reason),))
    if table.wall is not None:
        return judged_in_frame | {"force": setting.rated}, Outcome()
    wall, t = _wall(section, setting), float(thickness(section))
    steel = find_steel(table.steel or press.uprights.steel, strengths=setting.basis.strengths)
    text = f"it pushes on the wall of the uprights, {wall:g} mm between its sides, {t:g} mm thick"
    own = {"force": setting.rated, "wall": wall, "wall_t": table.wall_t or t, "steel": steel}
    return judged_in_frame | own, Outcome(assumptions=(Assumption(table.name, text),))


def _wall(section: Any, setting: Setting) -> float:
    """Clear width of the wall that bends most: in the frame's plane, or across it, by how far off the force stands."""
    press = setting.press
    left, right, bottom, top = section.edges
    deep, wide = top - bottom, right - left
    in_plane, across = (deep, wide) if press.uprights.turned else (wide, deep)
    off = offsets(press.jack, press.frame, press.frame.span or 0.0)
    most = in_plane if off.plane * in_plane >= off.across * across else across
    return float(most - 2 * thickness(section))
