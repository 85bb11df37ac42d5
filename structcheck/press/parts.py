"""From a part as described to the part as checked: names become materials and sections, loads become forces."""

from itertools import product
from typing import Any

from structcheck.checks import beam, bolts, flange, pin, platen, upright, weld
from structcheck.checks.basis import Basis, Case, from_rated
from structcheck.checks.beam import check_beam
from structcheck.checks.beam_description import Beam, BeamLoad
from structcheck.checks.beam_pressings import beam_pressings
from structcheck.checks.bolts import check_bolts
from structcheck.checks.bolts_group import BoltGroup, BoltLoads
from structcheck.checks.flange import Flange, FlangeLoad, check_flange
from structcheck.checks.introduction import Introduction, SpreaderPlate, check_introduction, local_loads
from structcheck.checks.member_corrosion import corroded
from structcheck.checks.pin import Pin, PinLoads, check_pin
from structcheck.checks.platen import Platen, PlatenLoads, check_platen
from structcheck.checks.section_resistance import Station
from structcheck.checks.upright import Upright, UprightLoads, check_upright
from structcheck.checks.web_resistance import Stiffeners
from structcheck.checks.weld import Weld, WeldLoads, check_weld
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome
from structcheck.materials.bolts import find_class, find_size
from structcheck.materials.steels import Steel, find_steel
from structcheck.press import schema
from structcheck.press.fields import StatedLoad, stated
from structcheck.press.frame_schema import EdgeTable
from structcheck.press.joint_kinds import JOINT_KINDS
from structcheck.press.mechanism import MECHANISM
from structcheck.press.own_sections import check_own_section, seams_of_beam
from structcheck.press.setting import PartKind, Setting, is_users, marked, need_one, newtons, no_gusset, steel_of
from structcheck.shapes.library import look_up
from structcheck.shapes.section import Section


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


def _section(table: Any, setting: Setting) -> tuple[Section, Outcome]:
    found = look_up(table.section, setting.sections)
    return found.section, Outcome(assumptions=tuple(Assumption(table.name, text) for text in found.assumptions))


def run_beam(table: schema.BeamTable, setting: Setting) -> Outcome:
    """Check a beam as described."""
    beam, loads, found = beam_of(table, setting)
    how = beam_introduction(table, beam.steel, setting)
    pressings = beam_pressings(beam, loads, setting.basis)
    thinner = corroded(beam.section, beam.corrosion)
    beside = check_introduction(
        table.name, thinner, beam.steel, table.pieces, how, pressings, setting.basis, table.turned
    )
    outcome = check_beam(beam, loads, setting.basis, beside)
    rows, _ = _beam_rows(table, setting)
    entering = () if table.turned else local_loads(thinner, table.pieces, how, pressings)
    outcome += seams_of_beam(beam, loads, setting, entering)
    return marked(found + outcome, setting, is_users(*(row.load for row in rows)))


def beam_of(table: schema.BeamTable, setting: Setting) -> tuple[Beam, tuple[BeamLoad, ...], Outcome]:
    """The beam as described, its loads at rated force, and what was assumed about both."""
    section, found = _section(table, setting)
    rows, assumed = _beam_rows(table, setting)
    loads = tuple(
        BeamLoad(_line_total(row.load, table.span, setting), _at(row, table), _over(row, table)) for row in rows
    )
    limit = setting.limit.of(table.span) if setting.limit else None
    steel = steel_of(table.steel, setting, section.route)
    own = {"section": section, "steel": steel, "limit": limit, "held_at": tuple(table.held_at)}
    return Beam(**stated(table, Beam) | own), loads, found + Outcome(assumptions=assumed)


def beam_introduction(table: schema.Entered | EdgeTable, steel: Steel, setting: Setting) -> Introduction:
    """How forces enter a member, as described."""

    def of(grade: str | None, otherwise: Steel | None) -> Steel | None:
        return find_steel(grade, strengths=setting.basis.strengths) if grade else otherwise

    known = stated(table, Introduction)
    lost = 2 * getattr(table, "corrosion", 0.0)
    if (plate := table.spreader) is not None:
        if plate.thickness <= lost:
            wanted = "a plate that is left after corrosion from both faces"
            raise InputError(Problem("spreader", f"{plate.thickness:g} mm", "is eaten away", wanted))
        known["spreader"] = SpreaderPlate(plate.along, plate.across, plate.thickness - lost, of(plate.steel, steel))
    if (flats := getattr(table, "stiffeners", None)) is not None:
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
        need_one(table, "beam", ("load",), setting)
        rows = (schema.BeamLoadTable.model_construct(load=table.load, at=table.at, over=table.over),)
    for row in rows:
        if row.load.of == "spread" and (row.at is not None or row.over):
            fault = "stands beside a spread load, which covers the whole span"
            wanted = "a force with over = ..., for a load spread over a part of the span"
            key = "at" if row.at is not None else "over"
            raise InputError(Problem(key, "", fault, wanted, 'load = "5 kN", at = "500 mm", over = "200 mm"'))
    if not any(row.load.value for row in rows):
        fault = "is nothing: a part without a load would pass for nothing"
        raise InputError(Problem("load", "0", fault, "the force it really takes", part=f'beam "{table.name}"'))
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
    need_one(table, "upright", ("pull", "push", "moment", "moment_across"), setting)
    if table.pull is not None and table.push is not None:
        wanted = "a pull or a push: what is left of the two"
        raise InputError(Problem("push", "", "stands beside pull", wanted, part=f'upright "{table.name}"'))
    section, found = _section(table, setting)
    steel = steel_of(table.steel, setting, section.route)
    pull = newtons(table.pull, setting, "pull") - newtons(table.push, setting, "push")
    part = Upright(**stated(table, Upright) | {"section": section, "steel": steel})
    loads = tuple(
        load
        for M_y, M_z in _senses(section, table.moment or 0.0, table.moment_across or 0.0)
        for load in from_rated(
            setting.basis, lambda case, k, M=(M_y, M_z): UprightLoads(case, k * pull, *(k * m for m in M))
        )
    )
    outcome = check_upright(part, loads, setting.basis)
    places = [Station(load.case, "over its length", N=load.pull, M_y=load.moment, M_z=load.moment_z) for load in loads]
    outcome += check_own_section(table.name, section, steel, table.pieces, places, setting)
    return marked(found + outcome, setting, is_users(table.pull, table.push))


def _senses(section: Section, M_y: float, M_z: float) -> list[tuple[float, float]]:
    """The moments as stated, and the other way round where the section is not alike that way: nobody is asked which."""
    left, right, bottom, top = section.edges
    about = [
        (M,) if not M or abs(low + high) <= 1e-9 * high else (M, -M)
        for M, low, high in ((M_y, bottom, top), (M_z, left, right))
    ]
    return list(product(*about))


def bolt_group(table: schema.BoltsTable, setting: Setting) -> BoltGroup:
    """The bolts as described, by rows and columns or at places of their own."""
    missing = [key for key in ("rows", "columns") if getattr(table, key) is None and table.layout is None]
    if missing:
        wanted = "a whole number, or layout with x and y of every bolt"
        keys = [(setting.spell(key), key) for key in missing]
        raise InputError(
            Problem(key, "", "is missing", wanted, f"{key} 2" if key != k else f"{k} = 2") for key, k in keys
        )
    own = {
        "size": find_size(table.size),
        "bolt_class": find_class(table.bolt_class),
        "steel": steel_of(table.steel, setting),
    }
    if table.layout is not None:
        own["layout"] = tuple(table.layout)
    return BoltGroup(**stated(table, BoltGroup) | own)


BOLT_LOADS = ("shear", "tension", "across", "twist", "bend_x", "bend_y")
"""What may load a group of bolts."""


def bolt_loads(table: schema.BoltsTable, setting: Setting) -> tuple[BoltLoads, ...]:
    """The forces stated on the bolts, in every case."""
    need_one(table, "bolts", BOLT_LOADS, setting)
    shear, tension, across = (newtons(getattr(table, key), setting, key) for key in ("shear", "tension", "across"))
    twist, bend_x, bend_y = (getattr(table, key) or 0.0 for key in ("twist", "bend_x", "bend_y"))

    def make(case: Case, factor: float) -> BoltLoads:
        bent = (bend_x + tension * table.eccentricity) * factor, bend_y * factor
        in_plane = {"across": across * factor, "twist": twist * factor}
        return BoltLoads(
            case, shear * factor, table.eccentricity, tension * factor, bend_x=bent[0], bend_y=bent[1], **in_plane
        )

    return from_rated(setting.basis, make)


def run_bolts(table: schema.BoltsTable, setting: Setting) -> Outcome:
    """Check a bolt group as described."""
    no_gusset(table.gusset)
    if table.sleeve:
        wanted = "left out: whether gaps are open is said by gap and hollow"
        raise InputError(Problem("sleeve", "true", "means nothing without `at`", wanted))
    outcome = check_bolts(bolt_group(table, setting), bolt_loads(table, setting), setting.basis)
    moments = any(getattr(table, key) for key in ("twist", "bend_x", "bend_y"))
    return marked(outcome, setting, moments or is_users(table.shear, table.tension, table.across))


def weld_loads(table: schema.WeldTable, setting: Setting) -> tuple[WeldLoads, ...]:
    """The forces stated on the welds, in every case."""
    need_one(table, "weld", ("along", "across"), setting)
    along, across = newtons(table.along, setting, "along"), newtons(table.across, setting, "across")

    def make(case: Case, factor: float) -> WeldLoads:
        return WeldLoads(case, along * factor, across * factor)

    return from_rated(setting.basis, make)


def run_weld(table: schema.WeldTable, setting: Setting) -> Outcome:
    """Check fillet welds as described."""
    no_gusset(table.gusset)
    outcome = check_weld(weld_of(table, setting), weld_loads(table, setting), setting.basis)
    return marked(outcome, setting, is_users(table.along, table.across))


def weld_of(table: schema.WeldTable, setting: Setting) -> Weld:
    """The weld as described."""
    return Weld(**stated(table, Weld) | {"steel": steel_of(table.steel, setting)})


def pin_of(table: schema.PinTable, setting: Setting) -> Pin:
    """The pin as described."""
    steels = {"inner_steel": table.inner_steel, "outer_steel": table.outer_steel}
    others = {key: find_steel(text, strengths=setting.basis.strengths) for key, text in steels.items() if text}
    return Pin(**stated(table, Pin) | {"steel": steel_of(table.steel, setting)} | others)


def pin_loads(table: schema.PinTable, setting: Setting) -> tuple[PinLoads, ...]:
    """The pull stated on the pin, in every case."""
    need_one(table, "pin", ("pull",), setting)
    pull = newtons(table.pull, setting, "pull")

    def make(case: Case, factor: float) -> PinLoads:
        return PinLoads(case, pull * factor)

    return from_rated(setting.basis, make)


def run_pin(table: schema.PinTable, setting: Setting) -> Outcome:
    """Check a pin as described."""
    outcome = check_pin(pin_of(table, setting), pin_loads(table, setting), setting.basis)
    return marked(outcome, setting, is_users(table.pull))


def platen_of(table: schema.PlatenTable, setting: Setting) -> Platen:
    """The platen as described. Raises InputError where a round patch has no diameter, or a width beside it."""
    if table.shape == "round" and (table.along is None or table.across is not None):
        key, fault = ("along", "is missing") if table.along is None else ("across", "stands beside a round patch")
        given = "" if table.along is None else f"{table.across:g} mm"
        wanted, remedy = "its diameter, as along alone", f'{setting.spell("along")} = "80 mm"'
        raise InputError(Problem(setting.spell(key), given, fault, wanted, remedy, part=f'platen "{table.name}"'))
    own = {"steel": steel_of(table.steel, setting), "flatness": setting.flatness}
    return Platen(**stated(table, Platen) | own)


def platen_loads(table: schema.PlatenTable, setting: Setting) -> tuple[PlatenLoads, ...]:
    """The force stated on the platen, in every case."""
    load = newtons(table.load, setting, "load")

    def make(case: Case, factor: float) -> PlatenLoads:
        return PlatenLoads(case, load * factor, table.along, table.across, table.shape)

    return from_rated(setting.basis, make)


def run_platen(table: schema.PlatenTable, setting: Setting) -> Outcome:
    """Check a platen under a force of its own."""
    need_one(table, "platen", ("load",), setting)
    outcome = check_platen(platen_of(table, setting), platen_loads(table, setting), setting.basis)
    return marked(outcome, setting, is_users(table.load))


def run_flange(table: schema.FlangeTable, setting: Setting) -> Outcome:
    """Check flanges bent by a force of the user's beside the web."""
    need_one(table, "flange", ("force",), setting)
    section, found = _section(table, setting)
    force, moment = newtons(table.force, setting, "force"), table.moment or 0.0
    part = Flange(table.name, section, steel_of(table.steel, setting, section.route), table.pieces)
    if table.sides > 2 * table.pieces:
        wanted = f"at most {2 * table.pieces}: two halves of each beam"
        raise InputError(Problem("sides", f"{table.sides}", "is more than there are", wanted))

    def make(case: Case, factor: float) -> FlangeLoad:
        where = (table.lever, table.along, table.sides, table.to_end)
        return FlangeLoad(case, force * factor, *where, moment * factor)

    outcome = check_flange(part, from_rated(setting.basis, make), setting.basis)
    if table.moment is None:
        text = "moment of the beam alongside not stated: taken as none"
        outcome += Outcome(assumptions=(Assumption(table.name, text, text),))
    return marked(found + outcome, setting, is_users(table.force))


def _bolts_title(table: schema.BoltsTable) -> str:
    how = f"{len(table.layout)}" if table.layout else f"{table.rows} x {table.columns}"
    return f"Bolts {how} {table.size} {table.bolt_class}"


KINDS: dict[str, PartKind] = {
    "beam": PartKind(schema.BeamTable, run_beam, lambda t: f"Beam {t.section}, {t.span:g} mm", beam.NEEDED),
    "upright": PartKind(schema.UprightTable, run_upright, lambda t: f"Upright {t.section}", upright.NEEDED),
    "flange": PartKind(schema.FlangeTable, run_flange, lambda t: f"Flange of {t.section}", flange.NEEDED),
    "bolts": PartKind(schema.BoltsTable, run_bolts, _bolts_title, bolts.NEEDED),
    "weld": PartKind(schema.WeldTable, run_weld, lambda t: f"Weld {t.runs} x {t.length:g} mm", weld.NEEDED),
    "pin": PartKind(schema.PinTable, run_pin, lambda t: f"Pin {t.diameter:g} mm", pin.NEEDED),
    "platen": PartKind(
        schema.PlatenTable,
        run_platen,
        lambda t: f"Platen {t.length:g} x {t.width:g} x {t.thickness:g} mm",
        platen.NEEDED,
    ),
    **JOINT_KINDS,
    **MECHANISM,
}
"""Every kind of part: its table in the press file, its check, the title of a question about it."""
