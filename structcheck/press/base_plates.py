"""Foot plates from the press file to their check: asked with forces of the user's, or under the feet of the frame."""

from structcheck.checks.base_plate import BasePlate, BasePlateLoads, check_base_plate
from structcheck.checks.basis import Case, from_rated
from structcheck.checks.member_corrosion import corroded
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.press import joint_schema as schema
from structcheck.press.fields import stated
from structcheck.press.frame.demands import FrameAnswer
from structcheck.press.joint_tables import Known, grade_of, section_of
from structcheck.press.meetings import is_turned
from structcheck.press.setting import Setting, is_users, marked, need_one, newtons, steel_of

FEET = "feet"
"""The place of a frame where these stand."""


def base_plate_of(table: schema.BasePlateTable, setting: Setting, known: Known) -> tuple[BasePlate, Outcome]:
    """The plate as described, under a section stated or the frame's."""
    section, found = section_of(table, "section", setting, known)
    grade = grade_of(table, "section_steel", known)
    own = {
        "section": section,
        "section_steel": steel_of(grade, setting, section.route) if grade else None,
        "steel": steel_of(table.steel, setting),
        "bed": steel_of(table.bed_steel, setting) if table.bed_steel else None,
    }
    standing = {key: known[key] for key in ("pieces", "apart") if key in known}
    return BasePlate(**stated(table, BasePlate) | own | standing), found


def run_base_plate(table: schema.BasePlateTable, setting: Setting) -> Outcome:
    """Check a foot plate under forces of the user's."""
    need_one(table, "base_plate", ("push", "pull", "moment", "moment_across", "shear"), setting)
    if table.push is not None and table.pull is not None:
        raise InputError(Problem("push", "", "stands beside pull", "one of the two"))
    part, found = base_plate_of(table, setting, {})
    push = newtons(table.push, setting, "push") - newtons(table.pull, setting, "pull")
    shear = newtons(table.shear, setting, "shear")

    def make(case: Case, factor: float) -> BasePlateLoads:
        moments = [(moment or 0.0) * factor for moment in (table.moment, table.moment_across)]
        return BasePlateLoads(case, push * factor, *moments, shear * factor)

    outcome = check_base_plate(part, from_rated(setting.basis, make), setting.basis)
    users = bool(table.moment or table.moment_across) or is_users(table.push, table.pull, table.shear)
    return marked(found + outcome, setting, users)


def placed_base_plate(table: schema.BasePlateTable, answer: FrameAnswer, setting: Setting) -> Outcome:
    """One plate under each foot: the weight of the frame, and who pumps it."""
    if table.at != (FEET,) or FEET not in answer.forces:
        given = ", ".join(table.at or ())
        wanted = f'"{FEET}", in a frame of two uprights'
        raise InputError(Problem("at", f'"{given}"', "is no place for a foot plate", wanted, f'at = "{FEET}"'))
    member = answer.members.get("left leg") or answer.members["left upright"]
    turned = is_turned(member)
    if turned and member.pieces > 1:
        raise NotCovered("a foot plate under several turned pieces: give each its own, with the forces of a part of it")
    section = corroded(member.section, getattr(member.table, "corrosion", 0.0))
    said = {key for key in ("section", "pieces", "apart") if key in table.model_fields_set}
    if said:
        problems = [Problem(key, "", "is the frame's at its feet", "left out") for key in sorted(said)]
        raise InputError(problems)
    known = {"section": section, "section_steel": member.steel, "pieces": member.pieces}
    part, found = base_plate_of(table, setting, known | {"apart": getattr(member.table, "apart", None)})
    # The moment is across the frame: across the member's depth, or along it where the member is turned.
    loads = [
        BasePlateLoads(p.case, p.force, *((p.moment, 0.0) if turned else (0.0, p.moment)), p.shear)
        for p in answer.forces[FEET]
    ]
    text = (
        "each foot carries its share of the weight of members and [[mass]] and of the push on the pump handle, in the "
        "frame's plane or across it; the force of the jack stays within the frame"
    )
    outcome = check_base_plate(part, loads, setting.basis)
    return found + outcome + Outcome(assumptions=(Assumption(table.name, text),))
