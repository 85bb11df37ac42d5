"""From a part as described to the part as checked: names become materials and sections, loads become forces."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from structcheck.checks import beam, bolts, pin, platen, upright, weld
from structcheck.checks.basis import Basis, Case, from_rated
from structcheck.checks.beam import check_beam
from structcheck.checks.beam_description import Beam, BeamLoad
from structcheck.checks.beam_pressings import beam_pressings
from structcheck.checks.bolts import check_bolts
from structcheck.checks.bolts_group import BoltGroup, BoltLoads
from structcheck.checks.introduction import Introduction, SpreaderPlate, check_introduction
from structcheck.checks.pin import Pin, PinLoads, check_pin
from structcheck.checks.platen import Platen, PlatenLoads, check_platen
from structcheck.checks.upright import Upright, UprightLoads, check_upright
from structcheck.checks.web_resistance import Stiffeners
from structcheck.checks.weld import Weld, WeldLoads, check_weld
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.materials.bolts import find_class, find_size
from structcheck.materials.steels import Steel, find_steel
from structcheck.press import schema
from structcheck.press.fields import StatedLimit, StatedLoad, stated
from structcheck.press.mechanism import MECHANISM
from structcheck.shapes.library import look_up
from structcheck.shapes.section import Section


@dataclass(frozen=True)
class Setting:
    """What surrounds a part: the basis, the jack's force where one is described, limits, the user's own sections.

    rated  force of all jacks in N; None in a question about one part, where every load is a force of the user's
    """

    basis: Basis
    rated: float | None = None
    spell: Callable[[str], str] = str
    sections: tuple[Section, ...] = ()
    limit: StatedLimit | None = None
    flatness: float | None = None


@dataclass(frozen=True)
class PartKind:
    """How a kind of part is described, checked and titled."""

    table: type[schema.Part]
    run: Callable[[Any, Setting], Outcome]
    title: Callable[[Any], str]
    needed: tuple[str, ...]


def basis_of_question(asked: schema.QuestionTable) -> Basis:
    """The basis of a single question.

    The load is what the jack really pushes, and the valve is not stated: F_max is 1.25 times it. With a factor below
    1.5 the load already holds part of that surplus, so F_max is factor / 1.2 times the load, never below the load.
    """
    return Basis(
        load_factor=asked.factor,
        gamma_M0=asked.gamma_M0,
        gamma_M1=asked.gamma_M1,
        gamma_M2=asked.gamma_M2,
        gamma_Mf=asked.gamma_Mf,
        eta=asked.eta,
        strengths=asked.strengths,
        greatest=min(1.25, max(1.0, asked.factor / 1.2)),
        ultimate=asked.factor,
        presses=asked.presses_per_day * asked.days * asked.years,
        static=asked.static,
        lowest_temperature=asked.lowest_temperature,
    )


def newtons(load: StatedLoad | None, setting: Setting, key: str) -> float:
    """A stated load in N at rated force; nothing stated is nothing."""
    if load is None:
        return 0.0
    if load.of == "jack":
        if setting.rated is None:
            raise InputError(_no_jack(key, load, setting))
        return load.value * setting.rated
    if load.of == "spread":
        wanted = "a force in N, kN, lbf or kip, or a mass in kg, t or lb"
        raise InputError(Problem(key, "", "is a spread load; only a beam takes one", wanted))
    return load.value


def _no_jack(key: str, load: StatedLoad, setting: Setting) -> Problem:
    wanted = "a force or mass with its unit; a plain number is a share of a jack and there is none here"
    return Problem(setting.spell(key), f"{load.value:g}", "has no unit", wanted, f'{key} = "8 t"')


def _is_users(*loads: StatedLoad | None) -> bool:
    return any(load is not None and load.of != "jack" for load in loads)


def _marked(outcome: Outcome, setting: Setting, users: bool) -> Outcome:
    """In a press file, findings from a force typed by the user say so."""
    if not users or setting.rated is None:
        return outcome
    findings = tuple(replace(f, user_force=f.verdict != "not checked") for f in outcome.findings)
    return replace(outcome, findings=findings)


def steel_of(grade: str, setting: Setting, route: str = "plate") -> Steel:
    """The steel of a grade, by the strengths of the basis."""
    return find_steel(grade, route=route, strengths=setting.basis.strengths)


def _need_one(table: Any, kind: str, keys: tuple[str, ...], setting: Setting) -> None:
    """At least one of these loads must be stated: a part without a load would pass for nothing."""
    if all(getattr(table, key) is None for key in keys):
        key = setting.spell(keys[0])
        example = f'{key} "8 t"' if key.startswith("--") else f'{key} = "8 t", or a share of the jack: {key} = 0.5'
        also = f" (or {' or '.join(setting.spell(k) for k in keys[1:])})" if keys[1:] else ""
        wanted = f"the force on it{also}"
        raise InputError(Problem(key, "", "is missing", wanted, example, f'{kind} "{table.name}"'))


def _section(table: Any, setting: Setting) -> tuple[Section, Outcome]:
    found = look_up(table.section, setting.sections)
    return found.section, Outcome(assumptions=tuple(Assumption(table.name, text) for text in found.assumptions))


def run_beam(table: schema.BeamTable, setting: Setting) -> Outcome:
    """Check a beam as described."""
    section, found = _section(table, setting)
    steel = steel_of(table.steel, setting, section.route)
    rows, assumed = _beam_rows(table, setting)
    loads = tuple(
        BeamLoad(_line_total(row.load, table.span, setting), _at(row, table), _over(row, table)) for row in rows
    )
    limit = setting.limit.of(table.span) if setting.limit else None
    own = {"section": section, "steel": steel, "limit": limit, "held_at": tuple(table.held_at)}
    beam = Beam(**stated(table, Beam) | own)
    how = beam_introduction(table, steel, setting)
    pressings = beam_pressings(beam, loads, setting.basis)
    beside = check_introduction(table.name, section, steel, table.pieces, how, pressings, setting.basis)
    outcome = check_beam(beam, loads, setting.basis, beside)
    return _marked(found + Outcome(assumptions=assumed) + outcome, setting, _is_users(*(row.load for row in rows)))


def beam_introduction(table: schema.Pressed, steel: Steel, setting: Setting) -> Introduction:
    """How forces enter a beam, as described."""

    def of(grade: str | None, otherwise: Steel | None) -> Steel | None:
        return find_steel(grade, strengths=setting.basis.strengths) if grade else otherwise

    known = stated(table, Introduction)
    if (plate := table.spreader) is not None:
        known["spreader"] = SpreaderPlate(plate.along, plate.across, plate.thickness, of(plate.steel, steel))
    if (flats := table.stiffeners) is not None:
        own = of(flats.steel, None)
        known["stiffeners"] = Stiffeners(flats.width, flats.thickness, own, ends_held=flats.ends_held)
    return Introduction(**known)


def _line_total(load: StatedLoad, span: float, setting: Setting) -> float:
    return load.value * span if load.of == "spread" else newtons(load, setting, "load")


def _at(row: schema.BeamLoadTable, table: schema.BeamTable) -> float:
    if row.load.of == "spread" or row.at is None:
        return table.span if _stands_on_tip(row, table) else table.span / 2
    return row.at


def _stands_on_tip(row: schema.BeamLoadTable, table: schema.BeamTable) -> bool:
    return row.at is None and row.load.of != "spread" and table.supports == "cantilever"


def _over(row: schema.BeamLoadTable, table: schema.BeamTable) -> float:
    return table.span if row.load.of == "spread" else row.over


def _beam_rows(
    table: schema.BeamTable, setting: Setting
) -> tuple[tuple[schema.BeamLoadTable, ...], tuple[Assumption, ...]]:
    """The loads of a beam, and what was assumed about where they stand."""
    if table.loads and table.load is not None:
        fault = "stands beside loads"
        raise InputError(
            Problem("load", "", fault, "one of the two", "loads = [{ load = 1.0 }]", f'beam "{table.name}"')
        )
    if table.loads:
        rows = tuple(table.loads)
    else:
        _need_one(table, "beam", ("load",), setting)
        rows = (schema.BeamLoadTable.model_construct(load=table.load, at=table.at, over=table.over),)
    assumed = []
    for row in rows:
        if _stands_on_tip(row, table):
            text = f"place of the load not stated: taken at the free end, {table.span:g} mm from the root"
            assumed.append(Assumption(table.name, text))
        elif row.at is None and row.load.of != "spread":
            assumed.append(
                Assumption(table.name, f"place of the load not stated: taken at the middle, {table.span / 2:g} mm")
            )
    return rows, tuple(assumed)


def run_upright(table: schema.UprightTable, setting: Setting) -> Outcome:
    """Check an upright as described."""
    _need_one(table, "upright", ("pull", "moment"), setting)
    section, found = _section(table, setting)
    steel = steel_of(table.steel, setting, section.route)
    pull = newtons(table.pull, setting, "pull")

    def make(case: Case, factor: float) -> UprightLoads:
        return UprightLoads(case, pull * factor, (table.moment or 0.0) * factor)

    part = Upright(**stated(table, Upright) | {"section": section, "steel": steel})
    outcome = check_upright(part, from_rated(setting.basis, make), setting.basis)
    return _marked(found + outcome, setting, _is_users(table.pull))


def bolt_group(table: schema.BoltsTable, setting: Setting) -> BoltGroup:
    """The bolts as described."""
    own = {
        "size": find_size(table.size),
        "bolt_class": find_class(table.bolt_class),
        "steel": steel_of(table.steel, setting),
    }
    return BoltGroup(**stated(table, BoltGroup) | own)


def run_bolts(table: schema.BoltsTable, setting: Setting) -> Outcome:
    """Check a bolt group as described."""
    _need_one(table, "bolts", ("shear", "tension"), setting)
    shear, tension = newtons(table.shear, setting, "shear"), newtons(table.tension, setting, "tension")

    def make(case: Case, factor: float) -> BoltLoads:
        return BoltLoads(case, shear * factor, table.eccentricity, tension * factor)

    group = bolt_group(table, setting)
    outcome = check_bolts(group, from_rated(setting.basis, make), setting.basis)
    return _marked(outcome, setting, _is_users(table.shear, table.tension))


def run_weld(table: schema.WeldTable, setting: Setting) -> Outcome:
    """Check fillet welds as described."""
    _need_one(table, "weld", ("along", "across"), setting)
    along, across = newtons(table.along, setting, "along"), newtons(table.across, setting, "across")

    def make(case: Case, factor: float) -> WeldLoads:
        return WeldLoads(case, along * factor, across * factor)

    part = Weld(**stated(table, Weld) | {"steel": steel_of(table.steel, setting)})
    outcome = check_weld(part, from_rated(setting.basis, make), setting.basis)
    return _marked(outcome, setting, _is_users(table.along, table.across))


def pin_of(table: schema.PinTable, setting: Setting) -> Pin:
    """The pin as described."""
    steels = {"inner_steel": table.inner_steel, "outer_steel": table.outer_steel}
    others = {key: find_steel(text, strengths=setting.basis.strengths) for key, text in steels.items() if text}
    return Pin(**stated(table, Pin) | {"steel": steel_of(table.steel, setting)} | others)


def run_pin(table: schema.PinTable, setting: Setting) -> Outcome:
    """Check a pin as described."""
    _need_one(table, "pin", ("pull",), setting)
    pull = newtons(table.pull, setting, "pull")

    def make(case: Case, factor: float) -> PinLoads:
        return PinLoads(case, pull * factor)

    part = pin_of(table, setting)
    outcome = check_pin(part, from_rated(setting.basis, make), setting.basis)
    return _marked(outcome, setting, _is_users(table.pull))


def platen_of(table: schema.PlatenTable, setting: Setting) -> Platen:
    """The platen as described."""
    own = {"steel": steel_of(table.steel, setting), "flatness": setting.flatness}
    return Platen(**stated(table, Platen) | own)


def run_platen(table: schema.PlatenTable, setting: Setting) -> Outcome:
    """Check a platen under a force of its own."""
    _need_one(table, "platen", ("load",), setting)
    load = newtons(table.load, setting, "load")

    def make(case: Case, factor: float) -> PlatenLoads:
        return PlatenLoads(case, load * factor, table.along, table.across, table.shape)

    outcome = check_platen(platen_of(table, setting), from_rated(setting.basis, make), setting.basis)
    return _marked(outcome, setting, _is_users(table.load))


KINDS: dict[str, PartKind] = {
    "beam": PartKind(schema.BeamTable, run_beam, lambda t: f"Beam {t.section}, {t.span:g} mm", beam.NEEDED),
    "upright": PartKind(schema.UprightTable, run_upright, lambda t: f"Upright {t.section}", upright.NEEDED),
    "bolts": PartKind(
        schema.BoltsTable, run_bolts, lambda t: f"Bolts {t.rows} x {t.columns} {t.size} {t.bolt_class}", bolts.NEEDED
    ),
    "weld": PartKind(schema.WeldTable, run_weld, lambda t: f"Weld {t.runs} x {t.length:g} mm", weld.NEEDED),
    "pin": PartKind(schema.PinTable, run_pin, lambda t: f"Pin {t.diameter:g} mm", pin.NEEDED),
    "platen": PartKind(
        schema.PlatenTable,
        run_platen,
        lambda t: f"Platen {t.length:g} x {t.width:g} x {t.thickness:g} mm",
        platen.NEEDED,
    ),
    **{kind: PartKind(*row) for kind, row in MECHANISM.items()},
}
"""Every kind of part: its table in the press file, its check, the title of a question about it."""
