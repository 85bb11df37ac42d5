"""The unknown asked for: how many bolts, which throat, pin, section or spring; answered with the whole check of it.

Every trial goes through the same checks as a question; here is only the search, and how its answer is told.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field, replace
from typing import Any, Literal

from pydantic import Field

from structcheck.errors import InputError, Problem
from structcheck.findings import Amount, Finding, Result, worst
from structcheck.formula import Working
from structcheck.press import parts, schema
from structcheck.press.fields import AnyForce, Force, Length, Mass, Part, stated
from structcheck.press.names import WireName
from structcheck.press.setting import Setting
from structcheck.questions import answered, ask, described, respelt
from structcheck.record import record
from structcheck.shapes.library import matching
from structcheck.shapes.section import Section
from structcheck.sizing import bolts, springs, welds
from structcheck.sizing.answer import Answer, words_of
from structcheck.sizing.beams import SectionTried, find_section

UNKNOWNS: Mapping[str, tuple[str, ...]] = {
    "bolts": ("count", "size"),
    "weld": ("throat",),
    "pin": ("diameter",),
    "spring": ("spring",),
    "beam": ("section",),
}
"""What can be asked for of each kind of part."""


ONE_BOLT = "one bolt alone lets the part turn about it: a joint that must not turn, as at a corner, wants two or more"

UNDER_LOAD = ("web under load", "web under load with bending", "tube face", "flange bending")
"""Checks of the spot where a force enters: how it is spread there decides them."""


@record
class Asked:
    """A question with its unknown, and how the one who asks writes keys and numbers."""

    kind: str
    given: Mapping[str, Any]
    spell: Callable[[str], str] = str
    numbers: bool = True
    sections: tuple[Section, ...] = field(default=())

    def table(self, **filled: Any) -> tuple[Any, Setting]:
        """The part as described, the unknown filled in with something that can be read."""
        kind = parts.KINDS[self.kind]
        return described(
            self.kind, kind.table, {**self.given, **filled}, spell=self.spell, numbers=self.numbers,
            sections=self.sections,
        )  # fmt: skip

    def result(self, found: Mapping[str, float | str | Amount], *put_aside: str) -> Result:
        """The whole check of an answer."""
        texts = {k: f"{v.value:g} {v.unit}" if isinstance(v, Amount) else v for k, v in found.items()}
        given = {k: v for k, v in self.given.items() if k not in put_aside} | texts
        return ask(self.kind, given, spell=self.spell, numbers=self.numbers, sections=self.sections)


def find(
    kind: str,
    unknown: str,
    given: Mapping[str, Any],
    *,
    spell: Callable[[str], str] = str,
    numbers: bool = True,
    sections: Iterable[Section] = (),
    stock: str | None = None,
) -> Answer:
    """The smallest `unknown` ("count", "size", "throat", "diameter", "section", "spring") by which the part holds.

    given    the other keys of the question, as for `structcheck.questions.ask`; a stated unknown is put aside
    stock    a stock list of springs; the one that comes with the package if not stated

    Raises InputError with every problem of the input.
    """
    if unknown not in UNKNOWNS.get(kind, ()):
        wanted = (
            f"one of {', '.join(UNKNOWNS[kind])}" if kind in UNKNOWNS else f"a question about {', '.join(UNKNOWNS)}"
        )
        raise InputError(Problem(spell("find"), f'"{unknown}"', f"is no unknown of {kind}", wanted))
    asked = Asked(kind, given, spell, numbers, tuple(sections))
    try:
        if kind == "spring":
            return _spring(asked, stock)
        return _SEARCHES[unknown](asked)
    except InputError as error:
        raise InputError([respelt(problem, spell) for problem in error.problems]) from None


def _count(asked: Asked) -> Answer:
    _refuse_counted(asked)
    table, setting = asked.table(rows=1, columns=1)
    found = bolts.find_count(parts.bolt_group(table, setting), parts.bolt_loads(table, setting), setting.basis)
    answer = _of_pattern(asked, "count", found, _rows_and_columns)
    if found.part is None or found.part.count > 1:
        return answer
    return replace(answer, others=(*answer.others, ONE_BOLT))


def _refuse_counted(asked: Asked) -> None:
    """Refuse a pattern stated beside the search for it, in one message that names what is stated."""
    stated = [asked.spell(key) for key in ("rows", "columns", "layout") if asked.given.get(key) is not None]
    if stated:
        verb = "is" if len(stated) == 1 else "are"
        fault = f"{verb} stated beside {asked.spell('find')} count, which is to find the pattern"
        wanted = f"left out; or the whole pattern stated, without {asked.spell('find')} count"
        raise InputError(Problem(" and ".join(stated), "", fault, wanted))


def _rows_and_columns(part: Any) -> dict[str, float | str | Amount]:
    keys: dict[str, float | str | Amount] = {"rows": part.rows, "columns": part.columns}
    if part.rows > 1:
        keys["pitch"] = Amount(part.pitch, "mm")
    if part.columns > 1:
        keys["gauge"] = Amount(part.gauge, "mm")
    return keys


def _size(asked: Asked) -> Answer:
    if asked.given.get("hole") is not None:
        wanted = "left out: it follows the size, by EN 1090-2"
        raise InputError(Problem("hole", "", "is stated for bolts whose size is not known", wanted))
    table, setting = asked.table(size="M12")
    found = bolts.find_bolt_size(parts.bolt_group(table, setting), parts.bolt_loads(table, setting), setting.basis)
    return _of_pattern(asked, "size", found, lambda part: {"size": part.size.name})


def _diameter(asked: Asked) -> Answer:
    if asked.given.get("hole") is not None and asked.given.get("diameter") is None:
        wanted = "diameter beside it, so that the clearance is known, or left out"
        raise InputError(Problem("hole", "", "is stated for a pin that is not known", wanted))
    table, setting = asked.table(**{"diameter": "20 mm"} | {k: v for k, v in asked.given.items() if k == "diameter"})
    found = bolts.find_diameter(parts.pin_of(table, setting), parts.pin_loads(table, setting), setting.basis)

    def keys(part: Any) -> dict[str, float | str | Amount]:
        hole = {} if part.hole is None else {"hole": Amount(part.hole, "mm")}
        return {"diameter": Amount(part.diameter, "mm"), **hole}

    return _of_pattern(asked, "diameter", found, keys)


LEAST = {
    "count": "fewer than one bolt there is not",
    "size": "M12 is the thinnest bolt tried, as EN 1090-2 asks for in structural joints",
    "diameter": f"{bolts.STOCK_PINS[0]} mm is the thinnest stock pin",
}
"""What is said where the very first that is tried holds."""


def _of_pattern(
    asked: Asked, unknown: str, found: Any, keys: Callable[[Any], dict[str, float | str | Amount]]
) -> Answer:
    """The answer of one of the searches of `structcheck.sizing.bolts`."""
    smaller = LEAST[unknown] if found.part is not None else ""
    if found.smaller is not None and found.part is not None:
        smaller = f"next smaller, {words_of(keys(found.smaller))}: {_against(found.smaller_fails, found.reason)}"
    shown = found.part or found.smaller
    if shown is None:
        raise InputError(Problem("find", f'"{unknown}"', f"finds nothing: {found.reason}", "other sizes"))
    result = asked.result(keys(shown))
    if found.part is None:
        return Answer(unknown, None, result, reason=found.reason)
    return Answer(unknown, keys(found.part), result, smaller, spell=asked.spell)


def _against(finding: Finding | None, reason: str) -> str:
    if finding is None:
        return f"cannot be: {reason}"
    if finding.verdict == "not checked":
        return f"{finding.check} is not checked: {finding.reason}"
    if finding.utilisation is None:
        return f"fails {finding.check}: nothing is left to carry it"
    return f"fails {finding.check} at {finding.utilisation:.2f}"


def _throat(asked: Asked) -> Answer:
    given = {key: value for key, value in asked.given.items() if key not in ("throat", "leg", "leg_2")}
    asked = replace(asked, given=given)
    table, setting = asked.table(throat="4 mm")
    found = welds.find_throat(parts.weld_of(table, setting), parts.weld_loads(table, setting), setting.basis)
    throat = found.throat or found.smaller or welds.LEAST_THROAT
    result = asked.result({"throat": Amount(throat, "mm")})
    if found.throat is None:
        return Answer("throat", None, result, reason=found.reason)
    smaller = f"{welds.LEAST_THROAT:g} mm is the least throat a fillet weld may have"
    if found.smaller is not None:
        smaller = f"next smaller, throat {found.smaller:g} mm: {_against(found.smaller_fails, '')}"
    return Answer("throat", {"throat": Amount(found.throat, "mm")}, result, smaller, spell=asked.spell)


def _section(asked: Asked) -> Answer:
    pattern = asked.given.get("section") or "*"
    listed = matching(pattern, asked.sections)
    if not listed:
        wanted, remedy = "a pattern that fits", f'{asked.spell("section")} "UPN *"'
        raise InputError(Problem("section", f'"{str(pattern)[:60]}"', "fits no section", wanted, remedy))
    table, setting = asked.table(section=listed[0].designation)
    found = find_section(table, listed, setting)
    if not found.best:
        last = found.last
        result = asked.result({"section": last.section.designation})
        heaviest = f"{last.section.designation}, the heaviest: {_against(last.against, last.reason)}"
        reason = "; ".join(
            [f"none of {found.tried} sections holds", heaviest, *_spread(asked, last, "one of these may")]
        )
        return Answer("section", None, result, reason=reason)
    first = found.best[0].section
    result = asked.result({"section": first.designation})
    smaller = ""
    if found.lighter is not None:
        lighter, why = found.lighter.section, _against(found.lighter.against, found.lighter.reason)
        smaller = f"next lighter, {lighter.designation} ({_mass(lighter, table)}): {why}"
    fully = " with the fewest checks left undone" if found.open is not None else ""
    others = [f"{first.designation} is the lightest that holds{fully}: {_mass(first, table)}"]
    if found.open is not None:
        left, more = found.open.section, [c for c in found.open.unjudged if c not in found.best[0].unjudged]
        others.append(f"{left.designation} ({_mass(left, table)}) is lighter, and not judged on it: {', '.join(more)}")
    others += [f"{t.section.designation} ({_mass(t.section, table)}) holds too" for t in found.best[1:]]
    others += _spread(asked, found.lighter)
    return Answer("section", {"section": first.designation}, result, smaller, tuple(others), spell=asked.spell)


def _spread(asked: Asked, lighter: SectionTried | None, may: str = "a lighter section may") -> list[str]:
    """Where only the spot the force enters kept a section out: what may be stated to let it do."""
    failing = [f for f in lighter.outcome.findings if f.verdict == "fails"] if lighter else []
    open_keys = [asked.spell(key) for key in ("bearing", "pad", "held_by") if asked.given.get(key) is None]
    if not failing or not open_keys or any(f.check not in UNDER_LOAD for f in failing):
        return []
    *first, last = open_keys
    keys = f"{', '.join(first)} or {last}" if first else last
    where = "where the force is spread or the beam hangs by its web"
    return [f"{worst(failing).check} governs: state {keys} {where}, and {may} do"]


def _mass(section: Section, table: schema.BeamTable) -> str:
    return f"{section.mass * table.pieces:.1f} kg/m"


class WantedTable(Part):
    """What a return spring has to do."""

    lifts: Mass = Field(description="mass that must come back", examples=["25 kg"])
    travel: Length = Field(description="full stroke of the jack", examples=["150 mm"])
    space: Length = Field(description="room for the spring at the open press, its fitted length", examples=["420 mm"])
    count: int = Field(2, ge=1, le=50, description="springs side by side")
    held: Literal["rod", "tube", "no"] = Field("no", description="by what the spring is kept straight")
    rod: Length | None = Field(None, description="diameter of the rod inside")
    tube: Length | None = Field(None, description="inside of the tube around")
    rating: Force | None = Field(None, description="rated force of the jack")
    oil: AnyForce | None = Field(None, description="what oil and seals hold back; 500 N unless measured")
    drag: AnyForce | None = Field(None, description="friction of the guides that the springs must overcome")
    seats_parallel: bool = Field(False, description="both ends are kept parallel and cannot shift sideways")
    grade: WireName = Field("SM", description="class of wire of springs made from wire sizes")


def _spring(asked: Asked, stock: str | None) -> Answer:
    table, setting = described(
        "spring", WantedTable, asked.given, spell=asked.spell, numbers=asked.numbers, sections=asked.sections
    )
    wanted, basis = springs.Wanted(**stated(table, springs.Wanted)), setting.basis
    listed = springs.choose_spring(wanted, springs.from_stock(wanted, stock), basis, few=None)
    made = springs.choose_spring(wanted, springs.from_wire_sizes(wanted, table.grade), basis)
    of_wire = tuple(f"made from wire: {line}" for line in springs.explain(made, few=0))
    if stock is None:
        of_wire += ("the stock list that comes with the package is invented: ask with your supplier's, as a CSV",)
    chosen = listed.softest
    if chosen is None:
        nearest = min(listed.rejected, key=lambda t: (t.preload is None, len(t.reasons)), default=None)
        why = "the stock list is empty"
        if nearest:
            tried = len(listed.rejected)
            why = f"none of the {tried} springs of the stock list does; nearest, {springs.why_not(nearest)}"
        title = "NO SPRING OF THE STOCK LIST DOES, those tried"
        result = answered("spring", title, asked.given, setting, springs.kept_out(listed))
        return Answer("spring", None, result, others=tuple(springs.explain(listed)) + of_wire, reason=why)
    with Working():
        outcome = springs.try_spring(chosen.spring, basis).outcome
    title = f"Return springs, {wanted.count} x {chosen.spring.name}"
    result = answered("spring", title, asked.given, setting, outcome)
    softer = listed.next_softer(chosen)
    smaller = f"next softer, {springs.why_not(softer)}" if softer else ""
    others = tuple(springs.explain(listed)) + of_wire
    return Answer("spring", _keys(chosen.spring), result, smaller, others, spell=asked.spell)


def _keys(spring: Any) -> dict[str, float | str | Amount]:
    """What to write for a spring of the list."""
    keys: dict[str, float | str | Amount] = {"spring": spring.name, "count": spring.count}
    for key in ("wire", "mean"):
        keys[key] = Amount(getattr(spring, key), "mm")
    keys |= {"turns": spring.turns, "ends": spring.ends}
    keys["grade"] = "unknown" if spring.grade is None or spring.grade.assumed else spring.grade.grade
    for key in ("free", "fitted", "pressed"):
        keys[key] = Amount(getattr(spring, key), "mm")
    return keys


_SEARCHES: Mapping[str, Callable[[Asked], Answer]] = {
    "count": _count,
    "size": _size,
    "diameter": _diameter,
    "throat": _throat,
    "section": _section,
}


def find_count(**given: Any) -> Answer:
    """The fewest bolts: the keys of `check_bolts` without `rows` and `columns`.

    >>> from structcheck.sizing.find import find_count
    >>> keys = dict(size="M16", bolt_class="8.8", plate="10 mm", steel="S275", shear="40 kN", end="40 mm", edge="40 mm")
    >>> find_count(**keys).found["rows"]
    1
    """
    return find("bolts", "count", given)


def find_size(**given: Any) -> Answer:
    """The thinnest bolts: the keys of `check_bolts` without `size`."""
    return find("bolts", "size", given)


def find_throat(**given: Any) -> Answer:
    """The thinnest weld: the keys of `check_weld` without `throat`."""
    return find("weld", "throat", given)


def find_diameter(**given: Any) -> Answer:
    """The thinnest stock pin: the keys of `check_pin` without `diameter`."""
    return find("pin", "diameter", given)


def find_lightest_section(**given: Any) -> Answer:
    """The lightest section: the keys of `check_beam`, `section` a pattern such as "UPN *"."""
    return find("beam", "section", given)


def find_spring(*, stock: str | None = None, **given: Any) -> Answer:
    """The softest spring of a stock list: `lifts`, `travel`, `space`, `count`, `rod` or `tube`, `rating`."""
    return find("spring", "spring", given, stock=stock)
