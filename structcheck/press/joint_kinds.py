"""Joints of the wider kinds, from the press file to their checks: names become parts, typed loads become cases.

A builder takes what the frame knows of the place (`known`) for what the table leaves out.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from structcheck.checks import (
    base_plate,
    bolts_end_plate,
    bolts_rod,
    contact,
    cross_plate,
    tube_joint,
    weld_butt,
    weld_flange,
    weld_group,
)
from structcheck.checks.basis import Case, from_rated
from structcheck.checks.bolts_rod import Rod, RodLoads, check_rod
from structcheck.checks.contact import Contact, ContactLoads, check_contact
from structcheck.checks.cross_plate import CrossPlate, CrossPlateLoads, check_cross_plate
from structcheck.checks.tube_joint import TubeJoint, TubeJointLoads, check_tube_joint
from structcheck.checks.weld import WeldLoads
from structcheck.checks.weld_butt import Butt, check_butt
from structcheck.checks.weld_cautions import STIFF_BEHIND, corner_of_unknown_make
from structcheck.checks.weld_flange import PlateOnFlange, PlateOnFlangeLoads, check_plate_on_flange
from structcheck.checks.weld_group import GroupRun, RunGroup, RunGroupLoads, check_run_group
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, Outcome, not_checked
from structcheck.materials.bolts import find_class, find_size
from structcheck.press import joint_schema as schema
from structcheck.press.base_plates import run_base_plate
from structcheck.press.end_plates import run_end_plate
from structcheck.press.fields import Part, stated
from structcheck.press.joint_tables import Known, grade_of, missing, section_of
from structcheck.press.setting import PartKind, Setting, is_users, marked, need_one, newtons, no_gusset, steel_of

# ---- rods -----------------------------------------------------------------------------------


def rod_of(table: schema.RodTable, setting: Setting) -> Rod:
    """The rods as described."""
    own = {"size": find_size(table.size), "bolt_class": find_class(table.bolt_class)}
    if table.tapped_steel:
        own["tapped_steel"] = steel_of(table.tapped_steel, setting)
    return Rod(**stated(table, Rod) | own)


def run_rod(table: schema.RodTable, setting: Setting) -> Outcome:
    """Check threaded rods under a pull of the user's."""
    need_one(table, "rod", ("pull",), setting)
    pull = newtons(table.pull, setting, "pull")
    loads = from_rated(setting.basis, lambda case, factor: RodLoads(case, pull * factor))
    return marked(check_rod(rod_of(table, setting), loads, setting.basis), setting, is_users(table.pull))


# ---- tubes ----------------------------------------------------------------------------------


TUBES = ("cold formed", "hot finished")


def tube_joint_of(table: schema.TubeJointTable, setting: Setting, known: Known) -> tuple[TubeJoint, Outcome]:
    """The joint as described. Raises NotCovered for what is no tube, and upon it no tube and no flat."""
    chord, of_chord = section_of(table, "chord", setting, known)
    brace, of_brace = section_of(table, "brace", setting, known)
    if "t" not in brace.dimensions or brace.route not in (*TUBES, "bar", "plate"):
        raise NotCovered(f"{brace.designation} is no hollow section and no flat")
    if "t" not in chord.dimensions or chord.route not in TUBES:
        raise NotCovered(f"{chord.designation} is no hollow section")
    grade = grade_of(table, "chord_steel", known)
    if grade is None:
        raise missing(table, setting, "chord_steel")
    own = {
        "chord": chord,
        "brace": brace,
        "chord_steel": steel_of(grade, setting, chord.route),
        "brace_steel": steel_of(grade_of(table, "brace_steel", known, grade), setting, brace.route),
        "plate_along": None if table.plate is None else table.plate == "along",
    }
    return TubeJoint(**stated(table, TubeJoint) | own), of_chord + of_brace


def judge_tube_joint(
    table: schema.TubeJointTable, part: TubeJoint, loads: Sequence[TubeJointLoads], setting: Setting
) -> Outcome:
    """Section 7 is for a chord that goes on both ways: what is left of it beyond the brace must be known."""
    outcome = check_tube_joint(part, loads, setting.basis)
    if table.capped:
        return outcome
    wanted = _goes_on(part)
    if wanted is None:
        return outcome
    text = f"the chord goes on at least {wanted:.0f} mm past the brace both ways, or its end is capped"
    if table.beyond is None:
        return outcome + Outcome(assumptions=(Assumption(table.name, f"{text} (ours; section 7 is for such)", text),))
    if table.beyond >= wanted:
        return outcome
    reason = f"only {table.beyond:g} mm of chord are left beyond the brace; {wanted:.0f} mm, or a cap, are wanted"
    return replace(outcome, findings=tuple(_unless(f, "tube face", reason) for f in outcome.findings))


def _goes_on(part: TubeJoint) -> float | None:
    """Chord beyond the brace from which an open end does not matter, mm; recalled guidance and at least a width."""
    d = part.chord.dimensions
    wide = d.get("D") or d.get(part.side)
    if wide is None or (part.flat and part.plate_along is None):
        return None  # the check itself says that this is no joint it knows
    return max(1.0, 2.5 * (1 - min(part.upon.b_1 / wide, 1.0))) * wide


def _unless(finding: Finding, check: str, reason: str) -> Finding:
    return not_checked(finding.part, check, reason, source=finding.source) if finding.check == check else finding


def run_tube_joint(table: schema.TubeJointTable, setting: Setting) -> Outcome:
    """Check a tube joint under forces of the user's."""
    need_one(table, "tube_joint", ("pull", "push", "in_plane"), setting)
    if table.pull is not None and table.push is not None:
        raise InputError(Problem("push", "", "stands beside pull", "one of the two"))
    if table.chord_stress is None:
        raise missing(table, setting, "chord_stress")
    part, found = tube_joint_of(table, setting, {})
    pull = newtons(table.pull, setting, "pull") - newtons(table.push, setting, "push")

    def make(case: Case, factor: float) -> TubeJointLoads:
        return TubeJointLoads(case, pull * factor, table.chord_stress * factor, (table.in_plane or 0.0) * factor)

    outcome = judge_tube_joint(table, part, from_rated(setting.basis, make), setting)
    users = bool(table.in_plane) or bool(table.chord_stress) or is_users(table.pull, table.push)
    return marked(found + outcome, setting, users)


# ---- welds ----------------------------------------------------------------------------------


def butt_of(table: schema.ButtTable, setting: Setting) -> Butt:
    """The butt weld as described."""
    own = {"steel": steel_of(table.steel, setting)}
    if table.penetration is not None:
        own["penetration"] = tuple(table.penetration)
    return Butt(**stated(table, Butt) | own)


def run_butt(table: schema.ButtTable, setting: Setting) -> Outcome:
    """Check a butt weld under forces of the user's."""
    need_one(table, "butt", ("across", "along"), setting)
    along, across = newtons(table.along, setting, "along"), newtons(table.across, setting, "across")
    loads = from_rated(setting.basis, lambda case, factor: WeldLoads(case, along * factor, across * factor))
    outcome = check_butt(butt_of(table, setting), loads, setting.basis)
    return marked(outcome, setting, is_users(table.along, table.across))


def plate_on_flange_of(
    table: schema.PlateOnFlangeTable, setting: Setting, known: Known
) -> tuple[PlateOnFlange, Outcome]:
    """The plate and the flange it stands on."""
    base, found = section_of(table, "base", setting, known)
    grade = grade_of(table, "base_steel", known)
    if grade is None:
        raise missing(table, setting, "base_steel")
    own = {"base": base, "base_steel": steel_of(grade, setting, base.route), "steel": steel_of(table.steel, setting)}
    return PlateOnFlange(**stated(table, PlateOnFlange) | own), found


def run_plate_on_flange(table: schema.PlateOnFlangeTable, setting: Setting) -> Outcome:
    """Check a plate on a flange under a pull of the user's."""
    need_one(table, "plate_on_flange", ("pull",), setting)
    part, found = plate_on_flange_of(table, setting, {})
    pull = newtons(table.pull, setting, "pull")
    loads = from_rated(setting.basis, lambda case, factor: PlateOnFlangeLoads(case, pull * factor))
    outcome = check_plate_on_flange(part, loads, setting.basis)
    return marked(found + outcome, setting, is_users(table.pull))


def run_group_of(table: schema.WeldGroupTable, setting: Setting) -> RunGroup:
    """The runs as described."""
    own = {"runs": tuple(_run(run) for run in table.runs), "steel": steel_of(table.steel, setting)}
    return RunGroup(**stated(table, RunGroup) | own)


def _run(table: schema.RunTable) -> GroupRun:
    known = stated(table, GroupRun)
    return GroupRun(**{key: tuple(value) if isinstance(value, list) else value for key, value in known.items()})


def run_weld_group(table: schema.WeldGroupTable, setting: Setting) -> Outcome:
    """Check a weld group under a force and a moment of the user's."""
    need_one(table, "weld_group", ("force", "moment"), setting)
    no_gusset(table.gusset)
    size = sum(part * part for part in table.direction) ** 0.5
    if not size > 0:
        given = f"{table.direction}"
        raise InputError(Problem("direction", given, "is none", "one of three that is not 0", "direction = [0, 0, -1]"))
    force = newtons(table.force, setting, "force")
    vector = [force * part / size for part in table.direction]

    def make(case: Case, factor: float) -> RunGroupLoads:
        return RunGroupLoads(
            case,
            tuple(part * factor for part in vector),
            tuple(table.through or (0.0, 0.0, 0.0)),
            tuple(part * factor for part in table.moment or (0.0, 0.0, 0.0)),
        )

    group = run_group_of(table, setting)
    outcome = check_run_group(group, from_rated(setting.basis, make), setting.basis)
    outcome += Outcome(assumptions=(Assumption(table.name, STIFF_BEHIND),))
    if not table.killed and any(_over_corners(run, group.thickness) for run in group.runs):
        outcome += Outcome(assumptions=(corner_of_unknown_make(table.name),))
    return marked(outcome, setting, bool(table.moment) or is_users(table.force))


def _over_corners(run: GroupRun, thickness: float | None) -> bool:
    """A straight run round a hollow section of a wall that may be too thick to be welded over cold corners."""
    t = run.plate or thickness
    return run.sides == "around" and run.centre is None and (t is None or t > 4)


# ---- under the jack -------------------------------------------------------------------------


def cross_plate_of(table: schema.CrossPlateTable, setting: Setting, known: Known) -> CrossPlate:
    """The plate and the webs it stands between."""
    grade = grade_of(table, "wall_steel", known, table.steel)
    own = {"steel": steel_of(table.steel, setting), "wall_steel": steel_of(grade, setting)}
    return CrossPlate(**stated(table, CrossPlate) | own)


def run_cross_plate(table: schema.CrossPlateTable, setting: Setting) -> Outcome:
    """Check a plate between two beams under a force of the user's."""
    need_one(table, "cross_plate", ("load",), setting)
    load = newtons(table.load, setting, "load")
    loads = from_rated(setting.basis, lambda case, factor: CrossPlateLoads(case, load * factor, table.pad))
    outcome = check_cross_plate(cross_plate_of(table, setting, {}), loads, setting.basis)
    return marked(outcome, setting, is_users(table.load))


def contact_of(table: schema.ContactTable, setting: Setting) -> Contact:
    """The pin and what it presses on."""
    steels = steel_of(table.steel, setting), steel_of(table.seat_steel or table.steel, setting)
    return Contact(**stated(table, Contact) | {"steels": steels, "thick": (None, table.seat_thickness)})


def run_contact(table: schema.ContactTable, setting: Setting) -> Outcome:
    """Check a line of contact under a force of the user's."""
    need_one(table, "contact", ("force",), setting)
    force = newtons(table.force, setting, "force")
    loads = from_rated(setting.basis, lambda case, factor: ContactLoads(case, force * factor))
    outcome = check_contact(contact_of(table, setting), loads, setting.basis)
    return marked(outcome, setting, is_users(table.force))


def _kind(table: type[Part], run: Callable[[Any, Setting], Outcome], words: str, needed: tuple[str, ...]) -> PartKind:
    return PartKind(table, run, lambda t: words.format(t=t), needed)


JOINT_KINDS: dict[str, PartKind] = {
    "end_plate": _kind(
        schema.EndPlateTable, run_end_plate, "End plate {t.plate:g} mm, {t.size} {t.bolt_class}", bolts_end_plate.NEEDED
    ),
    "rod": _kind(schema.RodTable, run_rod, "Rods {t.count} x {t.size} {t.bolt_class}", bolts_rod.NEEDED),
    "tube_joint": _kind(schema.TubeJointTable, run_tube_joint, "Tube joint {t.brace} on {t.chord}", tube_joint.NEEDED),
    "butt": _kind(schema.ButtTable, run_butt, "Butt weld {t.length:g} x {t.thickness:g} mm", weld_butt.NEEDED),
    "plate_on_flange": _kind(
        schema.PlateOnFlangeTable,
        run_plate_on_flange,
        "Plate {t.width:g} x {t.thickness:g} mm on a flange of {t.base}",
        weld_flange.NEEDED,
    ),
    "weld_group": _kind(schema.WeldGroupTable, run_weld_group, "Weld group", weld_group.NEEDED),
    "cross_plate": _kind(
        schema.CrossPlateTable, run_cross_plate, "Plate {t.thickness:g} mm between two beams", cross_plate.NEEDED
    ),
    "contact": _kind(schema.ContactTable, run_contact, "Contact of a pin {t.diameter:g} mm", contact.NEEDED),
    "base_plate": _kind(
        schema.BasePlateTable,
        run_base_plate,
        "Foot plate {t.length:g} x {t.width:g} x {t.thickness:g} mm",
        base_plate.NEEDED,
    ),
}
"""These kinds of part, as `KINDS` of parts.py holds them."""
