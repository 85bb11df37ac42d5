"""Sections of the builder's own, from `[[section]]` of a press file: found by name, their seams judged in members."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from structcheck.checks.beam_description import Beam, BeamLoad
from structcheck.checks.beam_statics import solved, stations
from structcheck.checks.member_forms import thickness
from structcheck.checks.seam_pressed import check_pressed_seams
from structcheck.checks.seams import Cuts, Seam, Seams, Stretched, check_cuts, check_seams
from structcheck.checks.section_resistance import Station
from structcheck.checks.web_resistance import LocalLoad, Web
from structcheck.errors import InputError, NotCovered, Problem, UnknownName
from structcheck.findings import Assumption, Outcome
from structcheck.materials.steels import Steel
from structcheck.press.section_schema import SectionTable
from structcheck.press.setting import Setting
from structcheck.press.slots import check_slot, slotted
from structcheck.shapes import built_up
from structcheck.shapes.bars import Rectangle
from structcheck.shapes.families import PLATE
from structcheck.shapes.library import look_up, spell
from structcheck.shapes.net import first_moment, net_section
from structcheck.shapes.pair import Pair, side_by_side
from structcheck.shapes.section import Section
from structcheck.shapes.strips import Strips, refuse_flat

KEYS: Mapping[str, tuple[str, ...]] = {
    "welded i": ("h", "b", "tw", "tf"),
    "box": ("h", "b", "tw", "tf"),
    "channel": ("h", "b", "tw", "tf"),
    "t": ("h", "b", "tw", "tf"),
    "rib with plate": ("rib", "t", "plate", "width"),
    "flat": ("h", "t"),
    "rectangles": ("rectangles",),
    "pair": ("section", "gap"),
    "library": ("section",),
}
"""What each shape must state."""

SEAMS = ("throat", "runs", "stretch", "stretch_gap", "end_stretch", "dry", "fitted")

ALSO: Mapping[str, tuple[str, ...]] = {
    "welded i": ("b_bottom", "tf_bottom", *SEAMS),
    "box": ("overhang", "closed", *SEAMS),
    "channel": SEAMS,
    "t": SEAMS,
    "rib with plate": SEAMS,
    "flat": ("slot",),
    "rectangles": SEAMS,
    "pair": ("facing", "closed", "throat", "runs", "tied"),
}
"""What it may state beside them."""

ALWAYS = ("name", "shape", "holes", "inspected", "weldable")


# ---- by name --------------------------------------------------------------------------------


def own_sections(tables: Iterable[SectionTable], others: Iterable[Section] = ()) -> tuple[Section, ...]:
    """The sections of a press file in its order, each able to name those before it. Raises InputError."""
    made: tuple[Section, ...] = ()
    others = tuple(others)
    for table in tables:
        made = (*made, section_of(table, (*made, *others)))
    return made


def section_of(table: SectionTable, others: Iterable[Section] = ()) -> Section:
    """The section a table describes, under its own name. Raises InputError with every fault."""
    problems = [*_wrong_keys(table), *_wrong_stretches(table), *_wrong_name(table)]
    if problems:
        raise InputError(problems)
    shape = _MAKERS[table.shape](table, tuple(others))
    if isinstance(shape.shape, Strips) and shape.shape.skew:
        fault = (
            "has no axis of symmetry: bent about one axis it bends about the other too, and no method here does that"
        )
        raise InputError(Problem("shape", f'"{table.shape}"', fault, "a section symmetric about y or z"))
    if table.holes:
        shape = net_section(shape, [tuple(hole) for hole in table.holes])
    return replace(shape, designation=table.name)


def _wrong_keys(table: SectionTable) -> Iterable[Problem]:
    needed, may = KEYS[table.shape], ALSO.get(table.shape, ())
    for key in needed:
        if getattr(table, key) is None:
            field = type(table).model_fields[key]
            wanted = field.description or f"{key} of a {table.shape}"
            yield Problem(key, "", f'is missing for shape "{table.shape}"', wanted)
    for key in sorted(table.model_fields_set - {*needed, *may, *ALWAYS}):
        wanted = f"only {', '.join((*needed, *may, 'holes'))}"
        yield Problem(key, "", f'means nothing for shape "{table.shape}"', wanted)


def _wrong_stretches(table: SectionTable) -> Iterable[Problem]:
    """Seams in stretches that leave something open."""
    if table.closed and table.stretch is not None:
        fault = "stands beside closed, which says that every seam is welded along its whole length"
        yield Problem("stretch", f"{table.stretch:g} mm", fault, "one of the two")
    pair = {"stretch": table.stretch, "stretch_gap": table.stretch_gap}
    missing = [key for key, value in pair.items() if value is None]
    if len(missing) == 1 or (len(missing) == 2 and table.end_stretch is not None):
        for key in missing:
            wanted = "stretch and stretch_gap of an intermittent seam, or neither"
            yield Problem(key, "", "is missing beside the other", wanted, f'{key} = "60 mm"')


def _wrong_name(table: SectionTable) -> Iterable[Problem]:
    if spell(table.name).family is None:
        return
    try:
        found = look_up(table.name)
    except UnknownName:
        return
    fault = f"is the name of a stock size ({found.section.designation})"
    remedy = f'name = "{table.name[:50]} of mine"'
    yield Problem("name", f'"{table.name}"', fault, "a name that no list of sizes has", remedy)


# ---- how each is made -----------------------------------------------------------------------


def _welded_i(t: SectionTable, _: Sequence[Section]) -> Section:
    return built_up.welded_i(t.h, t.b, t.tw, t.tf, t.b_bottom, t.tf_bottom)


def _box(t: SectionTable, _: Sequence[Section]) -> Section:
    return built_up.welded_box(t.h, t.b, t.tw, t.tf, t.overhang or 0.0, t.closed)


def _channel(t: SectionTable, _: Sequence[Section]) -> Section:
    return built_up.welded_channel(t.h, t.b, t.tw, t.tf)


def _tee(t: SectionTable, _: Sequence[Section]) -> Section:
    return built_up.welded_t(t.h, t.b, t.tw, t.tf)


def _rib(t: SectionTable, _: Sequence[Section]) -> Section:
    return built_up.rib_with_plate(t.rib, t.t, t.plate, t.width)


def _flat(t: SectionTable, _: Sequence[Section]) -> Section:
    if t.slot is not None:
        return slotted(t)
    refuse_flat("flat", h=t.h, t=t.t)
    if t.h < t.t:
        wanted = f"more than t = {t.t:g} mm: a flat on edge; lying flat it is a turned member"
        raise InputError(Problem("h", f"{t.h:g} mm", "is less than the thickness", wanted))
    return Section(t.name, "", "plates of the user", PLATE, {"h": t.h, "t": t.t}, geometry=Rectangle(t.h, t.t))


def _rectangles(t: SectionTable, _: Sequence[Section]) -> Section:
    _refuse_apart(t.rectangles)
    return built_up.from_rectangles(t.name, [tuple(row) for row in t.rectangles])


def _refuse_apart(rows: Sequence[Sequence[float]]) -> None:
    """Rectangles that nothing joins are not one section."""
    joined, left = set(), {0} if rows else set()
    while left:
        i = left.pop()
        joined.add(i)
        left |= {k for k in range(len(rows)) if k not in joined and _touch(rows[i], rows[k])}
    if len(joined) < len(rows):
        alone = next(k for k in range(len(rows)) if k not in joined) + 1
        fault, wanted = f"number {alone} touches none of the others", "rectangles welded to one another"
        raise InputError(Problem("rectangles", "", fault, wanted))


def _touch(one: Sequence[float], other: Sequence[float]) -> bool:
    """Along an edge or across; a corner alone joins nothing."""
    wide = min(one[1], other[1]) - max(one[0], other[0])
    deep = min(one[3], other[3]) - max(one[2], other[2])
    return (wide > 0 and deep >= 0) or (deep > 0 and wide >= 0)


def _pair(t: SectionTable, others: Sequence[Section]) -> Section:
    return side_by_side(_piece(t, others), t.gap, t.facing, t.closed)


def _piece(t: SectionTable, others: Sequence[Section]) -> Section:
    found = look_up(t.section, others).section
    if found.geometry is None and not found.family:
        fault = "is a section of this file that could not be made, or is made later"
        raise InputError(Problem("section", f'"{t.section}"', fault, "a stock size, or a section further up"))
    return found


_MAKERS: dict[str, Callable[[SectionTable, Sequence[Section]], Section]] = {
    "welded i": _welded_i,
    "box": _box,
    "channel": _channel,
    "t": _tee,
    "rib with plate": _rib,
    "flat": _flat,
    "rectangles": _rectangles,
    "pair": _pair,
    "library": _piece,
}


# ---- its seams in a member ------------------------------------------------------------------


def is_own(section: Section, setting: Setting) -> bool:
    """Whether a section is one that this file describes."""
    return _table_of(section, setting) is not None


def check_own_section(
    name: str,
    section: Section,
    steel: Steel,
    pieces: int,
    places: Sequence[Station],
    setting: Setting,
    pressed: Sequence[LocalLoad] = (),
) -> Outcome:
    """What a member of a section of this file needs beside the checks of any member; nothing for a stock size.

    pressed  forces that enter it through a flange, and so through a seam
    """
    table = _table_of(section, setting)
    if table is None:
        return Outcome()
    outcome = Outcome(assumptions=_assumptions(name, table, setting))
    if table.holes or table.slot:
        cuts = Cuts(f"{name}, {'holes' if table.holes else 'slot'}", section, steel, slotted=table.slot is not None)
        outcome += check_cuts(cuts, places, pieces, setting.basis)
    if table.slot:
        outcome += check_slot(name, table, steel, pieces, places, setting.basis)
    alone = table.shape == "rectangles" and len(table.rectangles) == 1
    if alone or table.shape in ("flat", "library") or (table.shape == "pair" and not table.closed):
        return outcome
    try:
        seams, unknown = _seams(table, section), ""
    except NotCovered as why:
        seams, unknown = (), str(why)
    part = Seams(
        name=f"{name}, seams",
        seams=seams,
        steel=steel,
        throat=table.throat,
        runs=table.runs,
        stretched=_stretched(table),
        thickness=thickness(section),
        inspected=table.inspected,
        weldable=table.weldable,
        unknown=unknown,
    )
    outcome += check_seams(part, places, pieces, setting.basis)
    if not pressed or table.shape == "pair":
        return outcome
    torques = {station.case.name: 0.0 for station in places}
    for station in places:
        torques[station.case.name] = max(torques[station.case.name], abs(station.T) + abs(station.T_w))
    part = replace(part, name=f"{name}, seams under load")
    web = Web(name, section, steel, pieces)
    return outcome + check_pressed_seams(part, web, pressed, torques, setting.basis, table.fitted)


def _table_of(section: Section, setting: Setting) -> SectionTable | None:
    tables = setting.press.section if setting.press else ()
    return next((table for table in tables if table.name == section.designation), None)


def _assumptions(name: str, table: SectionTable, setting: Setting) -> tuple[Assumption, ...]:
    made = []
    if table.section is not None:
        made += [Assumption(name, text) for text in look_up(table.section, setting.sections).assumptions]
    if table.shape == "pair" and not table.closed:
        text = f'the two pieces of "{table.name}" are tied along their length, so that they act as one'
        made.append(Assumption(name, text, "" if table.tied else text))
    if table.shape == "box" and not table.closed:
        made.append(Assumption(name, f'not every seam of "{table.name}" is said to be closed: twisted as a slit tube'))
    if table.shape == "rib with plate":
        text = f"{table.width:g} mm of the plate work with the rib, as stated; shear lag is not looked at"
        made.append(Assumption(name, text, f"{table.width:g} mm of the plate work with the rib"))
    if table.holes:
        made.append(Assumption(name, f'the holes of "{table.name}" count along its whole length'))
    return tuple(made)


def _seams(table: SectionTable, section: Section) -> tuple[Seam, ...]:
    """The flow in every seam of a section. Raises NotCovered where it is not known."""
    if table.shape == "pair":
        cell = section.shape.cell if isinstance(section.shape, Pair) else None
        if cell is None:
            raise NotCovered("the seams of these two pieces with holes in them are not judged")
        # Sheared along z the flow vanishes at the seams, by symmetry; along y each flange carries half of it.
        one = Section(table.name, "", "", section.route, {}, geometry=section.shape)
        return (Seam("toes", by_y=_first(one, "z", 0.0) / one.Iz / 2, by_twist=1 / (2 * cell.area)),)
    if table.shape == "rectangles":
        return _seams_of_rectangles(table, section)
    return _seams_of_plates(table, section)


def _stretched(t: SectionTable) -> Stretched | None:
    """Seams laid in stretches; None where they are whole."""
    if t.stretch is None or t.stretch_gap is None:
        return None
    if t.shape == "rectangles":
        sizes = [sorted((b - a, d - c)) for a, b, c, d in t.rectangles or []]
    elif t.shape == "rib with plate":
        sizes = [sorted((t.t, t.rib)), sorted((t.plate, t.width))]
    else:
        sizes = [[t.tw, t.h], [t.tf, t.b + 2 * (t.overhang or 0.0)], [t.tf_bottom or t.tf, t.b_bottom or t.b]]
    thin, wide = [size[0] for size in sizes], [size[1] for size in sizes]
    return Stretched(t.stretch, t.stretch_gap, t.end_stretch or t.stretch, min(thin), (min(wide), max(wide)), t.dry)


def _first(section: Section, axis: str, level: float) -> float:
    return abs(first_moment(section, axis, level))


def _seams_of_plates(t: SectionTable, section: Section) -> tuple[Seam, ...]:
    """Between web and flanges, where the flange as a whole hangs on the web or webs."""
    top, bottom = section.edges[3], section.edges[2]
    upper = t.plate if t.shape == "rib with plate" else t.tf
    lower = {"welded i": t.tf_bottom or t.tf, "box": t.tf, "channel": t.tf}.get(t.shape)
    # Where a seam may be missing, the one beside it takes the whole flow.
    webs = 2 if t.shape == "box" and t.closed else 1
    by_y = by_twist = 0.0
    if t.shape == "box":
        outer = t.b / 2 - t.tw  # inner face of the webs from the middle
        by_y = _first(section, "z", outer) / section.Iz / webs
        cell = getattr(section.shape, "cell", None)
        by_twist = 1 / (2 * cell.area) if cell else 0.0
    elif t.shape == "channel":
        by_y = abs(first_moment(section, "z", section.edges[0] + t.tw)) / section.Iz / 2
    levels = [("upper seam", top - upper)] + ([("lower seam", bottom + lower)] if lower else [])
    return tuple(Seam(name, _first(section, "y", level) / section.Iy / webs, by_y, by_twist) for name, level in levels)


def _seams_of_rectangles(t: SectionTable, section: Section) -> tuple[Seam, ...]:
    """Where one rectangle lies on another; each seam is taken to carry the whole flow at its level."""
    rows = t.rectangles or []
    base = section.shape.centroid[1] if isinstance(section.shape, Strips) else 0.0
    levels = set()
    for i, (a, b, c, d) in enumerate(rows):
        for p, q, r, s in rows[:i]:
            wide, deep = min(b, q) - max(a, p), min(d, s) - max(c, r)
            if wide > 0 and deep == 0:
                levels.add(min(d, s))
            elif deep > 0 and wide == 0:
                raise NotCovered("plates of a list of rectangles that touch side by side: their seams are not judged")
    return tuple(
        Seam(f"seam {level:g} mm up", _first(section, "y", level - base) / section.Iy) for level in sorted(levels)
    )


# ---- while a file is read -------------------------------------------------------------------


def stand_in(row: Any) -> tuple[Section, ...]:
    """A section by name only, for one that cannot be made: with it the rest of the file can be read."""
    name = row.get("name") if isinstance(row, dict) else None
    return (Section(name, "", "", "welded", {}),) if isinstance(name, str) and name else ()


def seams_of_beam(
    beam: Beam, loads: Sequence[BeamLoad], setting: Setting, pressed: Sequence[LocalLoad] = ()
) -> Outcome:
    """What a beam of a section of this file needs beside the checks of any beam."""
    if _table_of(beam.section, setting) is None:
        return Outcome()
    places = stations(beam, solved(beam, loads), setting.basis)
    return check_own_section(beam.name, beam.section, beam.steel, beam.pieces, places, setting, pressed)
