"""End plates from the press file to their check: the beam, the plate, and the member it is bolted to."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from structcheck.checks.basis import Case, from_rated
from structcheck.checks.bolts_end_plate import EndPlate, EndPlateLoads, Support, check_end_plate
from structcheck.checks.member_forms import form
from structcheck.checks.web_resistance import Stiffeners
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.materials.bolts import find_class, find_size
from structcheck.press import joint_schema as schema
from structcheck.press.fields import stated
from structcheck.press.joint_tables import Known, grade_of, rolled_i, section_of
from structcheck.press.meetings import Standing
from structcheck.press.setting import Setting, is_users, marked, need_one, newtons, steel_of
from structcheck.shapes.section import Section
from structcheck.standards.en1993_1_8 import tstub


def end_plate_of(table: schema.EndPlateTable, setting: Setting, known: Known) -> tuple[EndPlate, Outcome]:
    """The end plate as seen when its upper rows are pulled."""
    section, found = section_of(table, "section", setting, known)
    beam = rolled_i(section, "section")
    grade = grade_of(table, "beam_steel", known)
    past = table.top - float(beam.h) if table.below is None else table.below
    own = {
        "size": find_size(table.size),
        "bolt_class": find_class(table.bolt_class),
        "steel": steel_of(table.steel, setting),
        "beam": section,
        "beam_steel": steel_of(grade, setting, section.route) if grade else None,
        "rows": tuple(table.rows),
        "depth": float(beam.h),
        "flange": float(beam.tf),
        "flange_width": float(beam.b),
        "web": float(beam.tw),
        "past": max(past, 0.0),
    }
    return EndPlate(**stated(table, EndPlate) | own | _behind(table, setting, known)), found


def _behind(table: schema.EndPlateTable, setting: Setting, known: Known) -> dict[str, Any]:
    """What is bolted to: a flange as stated, or a section: of an I its flange and web, of a tube its face."""
    grade = grade_of(table, "behind_steel", known)
    steel = {"behind_steel": steel_of(grade, setting)} if grade else {}
    if table.behind is not None and table.behind_section is not None:
        raise InputError(Problem("behind", f"{table.behind:g} mm", "stands beside behind_section", "one of the two"))
    if table.behind is not None or (table.behind_section is None and "behind_section" not in known):
        if table.at is None or table.behind is not None:  # an upright of no form that is judged may well have them
            _refuse_unused(table, "no section behind", *_OF_I, *_OF_TUBE, "behind_past", "behind_stress")
        return steel
    section, _ = section_of(table, "behind_section", setting, known)
    _refuse_unused(table, section.designation, *(_OF_I if form(section) == "hollow" else _OF_TUBE))
    support = _support(table, section, setting, known)
    if form(section) == "hollow":
        return steel | {"support": support}
    if form(section) != "i":
        if table.behind_section is not None:
            rolled_i(section, "behind_section")
        return steel
    shape = section.shape
    edge = min((shape.b - table.gauge) / 2, (table.width - table.gauge) / 2)
    lever = tstub.lever_from_root(table.gauge, shape.tw, shape.r)
    if edge <= 0 or lever <= 0:
        given = f"{table.gauge:g} mm"
        fault = f"puts the bolts beside the flange of {section.designation} or on its root"
        raise InputError(Problem("gauge", given, fault, f"bolts on a flange {shape.b:g} mm wide"))
    flange = {"behind": float(shape.tf), "behind_lever": float(lever), "behind_edge": float(edge)}
    return flange | {"support": support} | steel


_OF_I, _OF_TUBE = ("behind_stiffeners",), ("behind_capped", "through")


def _refuse_unused(table: schema.EndPlateTable, behind: str, *keys: str) -> None:
    """What is said of the member behind and means nothing there would be dropped, so it is refused."""
    problems = [
        Problem(key, "", f"means nothing for {behind}", "left out, or behind_section of the member it is about")
        for key in keys
        if getattr(table, key) not in (None, False)
    ]
    if problems:
        raise InputError(problems)


def _support(table: schema.EndPlateTable, section: Section, setting: Setting, known: Known) -> Support:
    grade = grade_of(table, "behind_steel", known, table.steel)
    flats = table.behind_stiffeners
    own = steel_of(flats.steel, setting) if flats is not None and flats.steel else None
    pair = flats and Stiffeners(flats.width, flats.thickness, own, ends_held=flats.ends_held)
    return Support(
        section=section,
        steel=steel_of(grade, setting, section.route),
        past=table.behind_past,
        stiffeners=pair,
        turned=bool(known.get("behind_turned")),
        through=table.through,
        capped=table.behind_capped,
    )


def turned_over(part: EndPlate) -> EndPlate:
    """The same plate as seen when its lower rows are pulled."""
    rows = tuple(part.depth - row for row in part.rows)
    return replace(part, rows=rows, top=part.depth + (part.past or 0.0), past=max(part.top - part.depth, 0.0))


def judge_end_plate(
    table: schema.EndPlateTable, part: EndPlate, loads: Sequence[EndPlateLoads], setting: Setting
) -> Outcome:
    """Both ways a corner can be bent. Moments above zero pull on the upper rows."""
    outcome = check_end_plate(part, loads, setting.basis, turned_over(part))
    outcome += welds_unsaid(table, setting, f"the fillets of {table.name} carry its rows, flange and web")
    if part.behind is not None and part.support is None:
        text = "the flange behind goes on past the outer rows, up and down"
        outcome += Outcome(assumptions=(Assumption(part.name, text, text),))
    if table.below is None:
        text = "the plate goes as far below the lower flange as above the upper one"
        outcome += Outcome(assumptions=(Assumption(part.name, text),))
    return outcome


def welds_unsaid(table: Standing, setting: Setting, condition: str) -> Outcome:
    """A condition where the welds that hold an end plate on its beam are described nowhere."""
    press = setting.press
    welds = [w for kind in ("weld", "weld_group", "butt") for w in (getattr(press, kind) if press else ())]
    places = {place for weld in welds for place in weld.at or ()}
    if table.at and places.issuperset(table.at):
        return Outcome()
    text = f"its fillets are judged nowhere: describe them as a [[weld_group]] at the same places ({condition})"
    return Outcome(assumptions=(Assumption(table.name, text, condition),))


def run_end_plate(table: schema.EndPlateTable, setting: Setting) -> Outcome:
    """Check an end plate under moment, pull and shear of the user's."""
    need_one(table, "end_plate", ("moment", "pull", "shear"), setting)
    part, found = end_plate_of(table, setting, {})
    pull, shear = newtons(table.pull, setting, "pull"), newtons(table.shear, setting, "shear")

    stress = table.behind_stress

    def make(case: Case, factor: float) -> EndPlateLoads:
        pressed = None if stress is None else stress * factor
        return EndPlateLoads(case, (table.moment or 0.0) * factor, pull * factor, shear * factor, pressed)

    outcome = judge_end_plate(table, part, from_rated(setting.basis, make), setting)
    return marked(found + outcome, setting, bool(table.moment) or is_users(table.pull, table.shear))
