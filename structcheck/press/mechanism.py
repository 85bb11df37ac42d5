"""What moves, from its description to its checks: springs of every kind, their seats, and guides.

What the rest of the press says is not asked again: the jack's stroke, its offset and force, a bench test, a spring.
"""

import difflib
from dataclasses import replace
from typing import Any

from structcheck.checks import die_spring, extension_spring, guide, measured_spring, platen_return, spring, spring_seat
from structcheck.checks.coil import Spring
from structcheck.checks.coil_input import describe
from structcheck.checks.die_spring import DieSpring, check_die_spring
from structcheck.checks.extension_spring import ExtensionSpring, check_extension_spring
from structcheck.checks.guide import Guide, check_guide
from structcheck.checks.measured_spring import BenchTest, measure
from structcheck.checks.platen_return import Place, ReturnSet, check_platen_return, pressed_columns
from structcheck.checks.spring import check_spring
from structcheck.checks.spring_seat import SpringSeat, check_spring_seat
from structcheck.checks.spring_warm import RELAXES_FROM
from structcheck.errors import InputError, NotCovered, Problem, UnknownName
from structcheck.findings import Assumption, Outcome
from structcheck.materials.bolts import find_class, find_size
from structcheck.materials.steels import find_steel
from structcheck.materials.wires import find_wire
from structcheck.press import mechanism_schema as schema
from structcheck.press.fields import Part, stated
from structcheck.press.frame.off_centre import offsets
from structcheck.press.frame_schema import FrameTable
from structcheck.press.guided_uprights import on_uprights
from structcheck.press.moving import lifted, marked_stated, room, rubbed, unseated, with_own_weight
from structcheck.press.setting import PartKind, Setting, is_users, marked, newtons
from structcheck.shapes.library import look_up

OF_THE_SET = ("fitted", "pressed", "lifts", "oil", "drag", "centre", "off_line")
"""What a return set says for every spring that stands in it."""


def run_spring(table: schema.SpringTable, setting: Setting) -> Outcome:
    """Check return springs as described; those of a return set are judged with it."""
    if _set_of(table, setting) is not None:
        return Outcome()
    part, beside = spring_of(table, setting)
    beside += unseated([table.name], setting)
    return marked_stated(beside + check_spring(part, setting.basis), table, setting)


def spring_of(table: schema.SpringTable, setting: Setting) -> tuple[Spring, Outcome]:
    """Springs that stand for themselves."""
    duty, of_duty = _duty(table, setting)
    given = _measured(table, setting) | duty
    _refuse_missing(table, setting, given, "free", "fitted", "lifts")
    given["pressed"], beside = _end_of_stroke(table, "pressed", -1.0, setting)
    part, of_weight = with_own_weight(Spring(**given), table)
    return part, beside + of_duty + of_weight + room(table.name, table.fitted, setting)


def _duty(table: Any, setting: Setting) -> tuple[dict[str, Any], Outcome]:
    """What springs that stand for themselves bring back: the mass that moves, the friction of the guides."""
    lifts, of_mass = lifted(table, setting)
    if lifts is None:
        return {}, Outcome()
    guides = tuple(_guide(guide, setting)[0] for guide in (setting.press.guide if setting.press else ()))
    drag, of_guides = rubbed(table, lifts, guides)
    return {"lifts": lifts, "drag": drag}, of_mass + of_guides


def _measured(table: schema.SpringTable, setting: Setting) -> dict[str, Any]:
    """What a spring states, its rate and free length from the bench test it names."""
    _refuse_unlike_hold(table, setting)
    given = stated(table, Spring) | {"grade": find_wire(table.grade), "rating": setting.rated}
    given |= _warmed(table, setting)
    if table.bench is None:
        return given
    if table.rate is not None:
        fault, wanted = "stands beside bench", "one of the two"
        raise InputError(Problem(setting.spell("rate"), f"{table.rate:g} N/mm", fault, wanted))
    test = _named("bench", ("bench",), table.bench, setting)
    try:
        fit, _ = measure(_bench(test))
    except InputError:
        fault, wanted = "gives no rate: its readings cannot be used", "a test whose readings make a line"
        raise InputError(Problem("bench", f'"{table.bench}"', fault, wanted)) from None
    return {"free": fit.free, **given, "rate": fit.rate, "rate_margin": table.rate_margin or fit.rate_margin}


def _refuse_unlike_hold(table: schema.SpringTable, setting: Setting) -> None:
    """`held` that says one thing and a diameter that says another."""
    stated_by = [key for key in ("rod", "tube") if getattr(table, key) is not None]
    if "held" in table.model_fields_set and stated_by and table.held not in stated_by:
        fault = f"stands beside {setting.spell(stated_by[0])}, which says that it is held by one"
        wanted = "one of the two, or held as the diameter says"
        remedy = f'{setting.spell("held")} = "{stated_by[0]}"'
        raise InputError(Problem(setting.spell("held"), f'"{table.held}"', fault, wanted, remedy, part=table.name))


def _warmed(table: schema.Returning, setting: Setting) -> dict[str, float]:
    """The temperature of a warm platen, where the spring states none of its own."""
    warm = _warm_platen(setting) if table.temperature is None else None
    return {} if warm is None else {"temperature": warm}


def _warm_platen(setting: Setting) -> float | None:
    """Temperature of the warmest platen, degC, where it warms the springs that stand under it."""
    stated_warm = [g.warm for g in (setting.press.guide if setting.press else ()) if g.warm is not None]
    return max((warm for warm in stated_warm if warm > RELAXES_FROM), default=None)


def _end_of_stroke(table: Any, key: str, way: float, setting: Setting) -> tuple[float, Outcome]:
    """Length at the end of the stroke: as stated, else where the jack's whole stroke takes it.

    Somebody will run the ram out: a spring stated for less of the stroke rests on something that stops the platen.
    """
    stroke = setting.press.jack.stroke if setting.press else None
    length = getattr(table, key)
    if length is None:
        if stroke is None:
            _refuse_missing(table, setting, {}, key)
        end = table.fitted + way * stroke
        if end <= 0:
            given, fault = f"{table.fitted:g} mm", f"is used up by the jack's stroke of {stroke:g} mm"
            raise InputError(Problem("fitted", given, fault, "a spring longer than the stroke"))
        text = f"at the end of the jack's stroke of {stroke:g} mm the spring is {end:g} mm long"
        return end, Outcome(assumptions=(Assumption(table.name, text),))
    if stroke is None or way * (length - table.fitted) >= stroke:
        return length, Outcome()
    stop = f"something stops the platen when the spring is {length:g} mm long"
    text = f"{stop}, short of the jack's stroke of {stroke:g} mm"
    return length, Outcome(assumptions=(Assumption(table.name, text, stop),))


def run_extension_spring(table: schema.ExtensionSpringTable, setting: Setting) -> Outcome:
    """Check pulling springs as described."""
    duty, of_duty = _duty(table, setting)
    _refuse_missing(table, setting, duty, "lifts")
    end, beside = _end_of_stroke(table, "stretched", 1.0, setting)
    own = duty | {"grade": find_wire(table.grade), "rating": setting.rated, "stretched": end} | _warmed(table, setting)
    part, of_weight = with_own_weight(ExtensionSpring(**stated(table, ExtensionSpring) | own), table)
    beside += of_weight + room(table.name, end, setting, pulled=True)
    return marked_stated(beside + of_duty + check_extension_spring(part, setting.basis), table, setting)


def run_die_spring(table: schema.DieSpringTable, setting: Setting) -> Outcome:
    """Check die springs as described."""
    part, beside = _die_spring(table, setting)
    beside += unseated([table.name], setting)
    return marked_stated(beside + check_die_spring(part, setting.basis), table, setting)


def _die_spring(table: schema.DieSpringTable, setting: Setting) -> tuple[DieSpring, Outcome]:
    duty, of_duty = _duty(table, setting)
    _refuse_missing(table, setting, duty, "lifts")
    end, beside = _end_of_stroke(table, "pressed", -1.0, setting)
    own = duty | {"rating": setting.rated, "pressed": end} | _warmed(table, setting)
    return DieSpring(**stated(table, DieSpring) | own), beside + of_duty + room(table.name, table.fitted, setting)


def run_bench(table: schema.BenchTable, setting: Setting) -> Outcome:
    """Whether the readings of a bench test can be trusted."""
    return measure(_bench(table))[1]


def _bench(table: schema.BenchTable) -> BenchTest:
    lengths, forces = [r.length for r in table.readings], [r.force for r in table.readings]
    return BenchTest(name=table.name, lengths=lengths, forces=forces, free=table.free, after=table.after)


def run_spring_seat(table: schema.SpringSeatTable, setting: Setting) -> Outcome:
    """Check where a spring bears, as described."""
    own = stated(table, SpringSeat) | _force_on_seat(table, setting)
    for key in ("steel", "washer_steel"):
        if text := getattr(table, key):
            own[key] = find_steel(text, strengths=setting.basis.strengths)
    own |= {
        "size": table.size and find_size(table.size),
        "bolt_class": table.bolt_class and find_class(table.bolt_class),
    }
    _refuse_missing(table, setting, own, "force", "mean")
    return check_spring_seat(SpringSeat(**own), setting.basis)


def _force_on_seat(table: schema.SpringSeatTable, setting: Setting) -> dict[str, float]:
    """The most one spring presses with, and where: of the spring that stands here."""
    if table.spring is None:
        return {}
    if table.force is not None:
        raise InputError(Problem("force", f"{table.force:g} N", "stands beside spring", "one of the two"))
    found = _named("spring", ("spring", "die_spring"), table.spring, setting)
    if isinstance(found, schema.DieSpringTable):
        die, _ = _die_spring(found, setting)
        return {"force": die.force(die.pressed)}
    if (whole := _set_of(found, setting)) is not None:
        names = [tuple(place.springs) for place in whole.places]
        columns = zip(names, pressed_columns(_return_set(whole, setting)[0]), strict=True)
        coil, force = max((column for name, column in columns if table.spring in name), key=lambda column: column[1])
    else:
        coil = describe(spring_of(found, setting)[0])
        force = coil.force(coil.spring.pressed)
    try:
        return {"force": force, "mean": table.mean or coil.D}
    except NotCovered:
        return {"force": force}


def run_return_set(table: schema.ReturnSetTable, setting: Setting) -> Outcome:
    """Check all springs of a platen together, and each on its share."""
    whole, beside = _return_set(table, setting)
    beside += unseated((name for place in table.places for name in place.springs), setting)
    return marked_stated(beside + check_platen_return(whole, setting.basis), table, setting)


def _return_set(table: schema.ReturnSetTable, setting: Setting) -> tuple[ReturnSet, Outcome]:
    lifts, of_mass = lifted(table, setting)
    own = stated(table, ReturnSet) | {"rating": setting.rated} | ({} if lifts is None else {"lifts": lifts})
    _refuse_missing(table, setting, own, "lifts")
    if table.stroke is None:
        own["stroke"] = setting.press.jack.stroke if setting.press else None
        _refuse_missing(table, setting, {k: v for k, v in own.items() if v is not None}, "stroke")
    own["places"] = tuple(_place(place, table, setting) for place in table.places)
    if table.guide is not None:
        own["guide"] = _guide(_named("guide", ("guide",), table.guide, setting), setting)[0]
    beside = of_mass + room(table.name, table.fitted, setting)
    if table.stroke is not None and setting.press and (setting.press.jack.stroke or 0.0) > table.stroke:
        stop = f"something stops the platen after {table.stroke:g} mm"
        text = f"{stop}, short of the jack's stroke of {setting.press.jack.stroke:g} mm"
        beside += Outcome(assumptions=(Assumption(table.name, text, stop),))
    whole, of_weight = with_own_weight(ReturnSet(**own), table)
    return whole, beside + of_weight


def _place(place: schema.PlaceTable, table: schema.ReturnSetTable, setting: Setting) -> Place:
    """One column; a spring that stands at several places is told by its place."""
    names = [name for other in table.places for name in other.springs]
    springs = []
    for name in place.springs:
        part = _spring_of_set(_named("springs", ("spring",), name, setting), table, setting)
        springs.append(replace(part, name=f"{name} at {place.x:g} mm") if names.count(name) > 1 else part)
    return Place(place.x, tuple(springs), place.how)


def _spring_of_set(table: schema.SpringTable, whole: schema.ReturnSetTable, setting: Setting) -> Spring:
    part = f'spring "{table.name}"'
    twice = [
        Problem(key, "", f'is said by the return set "{whole.name}" already', "left out here", part=part)
        for key in OF_THE_SET
        if getattr(table, key) is not None
    ]
    if table.count != 1:
        fault = "stands in a return set, which says where each one is"
        twice.append(Problem("count", f"{table.count}", fault, "count left out, and a place for each", part=part))
    if twice:
        raise InputError(twice)
    given = _measured(table, setting) | {"fitted": whole.fitted, "pressed": whole.fitted, "lifts": 0.0}
    _refuse_missing(table, setting, given, "free")
    # The set works out how long each of its springs is; until then every one is as long as the column.
    return Spring(**given)


def _set_of(table: schema.SpringTable, setting: Setting) -> schema.ReturnSetTable | None:
    for whole in setting.press.return_set if setting.press else ():
        if any(table.name in place.springs for place in whole.places):
            return whole
    return None


def run_guide(table: schema.GuideTable, setting: Setting) -> Outcome:
    """Check guides as described."""
    part, beside = _guide(table, setting)
    outcome = beside + check_guide(part, setting.basis)
    return outcome if table.force is None else marked(outcome, setting, is_users(table.force))


def _guide(table: schema.GuideTable, setting: Setting) -> tuple[Guide, Outcome]:
    own = stated(table, Guide)
    beside = Outcome()
    if table.offset is None:
        if setting.press is None:
            _refuse_missing(table, setting, own, "offset")
        own["offset"], beside = _offset_of_jack(table, setting)
    else:
        beside = _nearer_than_the_jack(table, setting)
    if table.steel:
        own["steel"] = find_steel(table.steel, strengths=setting.basis.strengths)
    if table.post:
        found = look_up(table.post, setting.sections)
        own["post"] = found.section
        beside += Outcome(assumptions=tuple(Assumption(table.name, text) for text in found.assumptions))
    on_them, of_them = on_uprights(table, setting)
    own, beside = own | on_them, beside + of_them
    if table.force is not None:
        own["force"] = newtons(table.force, setting, "force")
    elif table.post or table.wall or _on_rods(setting):
        own["force"] = setting.rated
    springs = setting.press and (setting.press.spring or setting.press.extension_spring or setting.press.die_spring)
    if table.warm is not None and _warm_platen(setting) == table.warm and springs:
        text = f"springs whose temperature is not stated are as warm as the platen, {table.warm:g} degC"
        beside += Outcome(assumptions=(Assumption(table.name, text),))
    return Guide(**own | {"springs": _springs_on(table, setting)}), beside


def _offset_of_jack(table: schema.GuideTable, setting: Setting) -> tuple[float, Outcome]:
    """The larger of the two offsets the press is judged for."""
    press = setting.press
    frame = press.frame or FrameTable()
    off = offsets(press.jack, frame, frame.span or 0.0)
    offset, in_plane = max((off.plane, True), (off.across, False))
    text = f"the force may stand {offset:g} mm off the centre of the guides, as the jack's offset says"
    if (press.jack.offset if in_plane else press.jack.offset_across) is None:
        text = f"offset not stated: {offset:g} mm taken (50 mm, half the tooling, 5 % of the span)"
    return offset, Outcome(assumptions=(Assumption(table.name, text),))


def _on_rods(setting: Setting) -> bool:
    """Whether the platen slides on rods of their own: they take the couple, and nothing else judges them."""
    guides = setting.press.guides if setting.press else None
    return guides is not None and guides.on == "rods"


def _nearer_than_the_jack(table: schema.GuideTable, setting: Setting) -> Outcome:
    """A stated offset smaller than the press is judged for holds only if the force cannot stand as far off."""
    press = setting.press
    if press is None or (press.frame is None and press.jack.offset is None and press.jack.offset_across is None):
        return Outcome()
    offset = _offset_of_jack(table, setting)[0]
    if table.offset >= offset:
        return Outcome()
    nearer = f"the force stands no further than {table.offset:g} mm from the centre of {table.name}"
    text = f"{nearer}, though the press is judged with it {offset:g} mm off"
    return Outcome(assumptions=(Assumption(table.name, text, nearer),))


def _springs_on(table: schema.GuideTable, setting: Setting) -> tuple[tuple[float, float], ...]:
    """(place, rate) of every column of springs under the platen this guide leads; of those whose rate is known."""
    found = []
    for whole in setting.press.return_set if setting.press else ():
        if whole.guide != table.name:
            continue
        for place in whole.places:
            part = _place(place, whole, setting)
            try:
                found.append((place.x, platen_return.rate_of(part)))
            except NotCovered:
                continue
    return tuple(found)


def _named(key: str, kinds: tuple[str, ...], name: str, setting: Setting) -> Any:
    """The part of this name. Raises UnknownName."""
    known = {table.name: table for kind in kinds for table in (getattr(setting.press, kind) if setting.press else ())}
    if name in known:
        return known[name]
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.4) or list(known)[:1]
    tables = " or ".join(f"[[{kind}]]" for kind in kinds)
    remedy = f'{key} = "{near[0]}"' if near else f"{tables.split(' or ')[0]} with this name"
    raise UnknownName(
        Problem(setting.spell(key), f'"{name[:60]}"', f"is the name of no {tables}", f"a {tables} of this file", remedy)
    )


def _refuse_missing(table: Part, setting: Setting, given: dict[str, Any], *keys: str) -> None:
    """Every one of these keys must be stated, or be known from elsewhere."""
    problems = []
    for key in keys:
        if key in given:
            continue
        field = type(table).model_fields[key]
        says = setting.spell(key)
        example = (field.examples or [""])[0]
        remedy = f'{says} "{example}"' if says.startswith("--") else f'{says} = "{example}"'
        problems.append(Problem(says, "", "is missing", field.description or "", remedy if example else ""))
    if problems:
        raise InputError(problems)


MECHANISM: dict[str, PartKind] = {
    "spring": PartKind(schema.SpringTable, run_spring, lambda t: f"Return springs, {t.count}", spring.NEEDED),
    "guide": PartKind(schema.GuideTable, run_guide, lambda t: f"Guide {t.length:g} mm", guide.NEEDED),
    "extension_spring": PartKind(
        schema.ExtensionSpringTable,
        run_extension_spring,
        lambda t: f"Extension springs, {t.count}",
        extension_spring.NEEDED,
    ),
    "die_spring": PartKind(
        schema.DieSpringTable, run_die_spring, lambda t: f"Die springs, {t.count}", die_spring.NEEDED
    ),
    "spring_seat": PartKind(schema.SpringSeatTable, run_spring_seat, lambda t: f"Seat {t.name}", spring_seat.NEEDED),
    "return_set": PartKind(
        schema.ReturnSetTable, run_return_set, lambda t: f"Return of the platen, {t.name}", platen_return.NEEDED
    ),
    "bench": PartKind(schema.BenchTable, run_bench, lambda t: f"Bench test {t.name}", measured_spring.NEEDED),
}
"""Kinds of part that move, as `KINDS` of parts.py holds them."""
