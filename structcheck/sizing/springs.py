"""Choosing a return spring: from a stock list, or from wire sizes; the best few, and why the rest fall out."""

import csv
import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal

from structcheck.checks.basis import Basis
from structcheck.checks.coil import Coil, Spring
from structcheck.checks.spring import check_spring
from structcheck.checks.spring_fit import GUIDE_FIT, fits
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Finding, Outcome, not_checked
from structcheck.materials.wires import find_wire
from structcheck.record import record
from structcheck.shapes.rows import data_folder
from structcheck.standards import en13906_1 as en

COLUMNS = ("name", "wire", "mean", "turns", "ends", "grade", "coiling", "free")
OPTIONAL = ("provenance",)

ROOM = "spring room"
"""Whether the spring can stand in the space at all."""

WIRES = (2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0, 6.5, 7.0, 8.0, 9.0, 10.0)
INDICES = (5.0, 6.0, 7.0, 8.0, 9.0, 10.0)
MOST_COILS = 60
WANTED_MARGIN = 1.25
"""What is aimed at when a spring is made from wire sizes: builders add 25 to 50 % to what must come back."""


@record(kw_only=True)
class Wanted:
    """What a return spring has to do; mm, N, kg.

    lifts        mass that comes back, on all springs together
    travel       full stroke of the jack, not only what the work takes
    space        room for the spring at the open press, so its fitted length
    held         by what the spring is kept straight: "rod", "tube" or "no"
    rod, tube    diameter of the rod inside or of the tube outside, where it is known: what fits is judged by it
    """

    lifts: float
    travel: float
    space: float
    count: int = 2
    oil: float | None = None
    drag: float | None = None
    rating: float | None = None
    held: Literal["no", "rod", "tube"] = "no"
    rod: float | None = None
    tube: float | None = None
    seats_parallel: bool = False

    def fitted(self, **coil: Any) -> Spring:
        """A spring put into this place: fitted in the space, pressed by the full travel."""
        return Spring(
            fitted=self.space,
            pressed=self.space - self.travel,
            count=self.count,
            lifts=self.lifts,
            held=self.held,
            rod=self.rod,
            tube=self.tube,
            oil=self.oil,
            drag=self.drag,
            rating=self.rating,
            seats_parallel=self.seats_parallel,
            **coil,
        )


@record
class Trial:
    """One spring tried: what it gives at the open press and everything that was found about it, the fit included.

    preload      of all springs at the open press, N; None where it cannot be fitted
    """

    spring: Spring
    preload: float | None
    outcome: Outcome

    @property
    def against(self) -> tuple[Finding, ...]:
        """What speaks against it; a check that could not be done does too."""
        return tuple(f for f in self.outcome.findings if f.verdict != "holds")

    @property
    def conditions(self) -> tuple[str, ...]:
        """What must be confirmed for it to hold, of this spring and not of all alike."""
        return tuple(dict.fromkeys(a.condition for a in self.outcome.assumptions if a.condition))

    @property
    def reasons(self) -> tuple[str, ...]:
        """Why it falls out, in words."""
        return tuple(_reason(finding) for finding in self.against)

    @property
    def utilisation(self) -> float | None:
        """Of the check nearest its limit, the fit on a rod or in a tube aside: more play there is no merit."""
        return max((f.utilisation or 0.0 for f in self.outcome.findings if f.check != GUIDE_FIT), default=None)

    @property
    def holds(self) -> bool:
        """Whether something was judged and nothing speaks against it."""
        return bool(self.outcome.findings) and not self.against


@record
class Choice:
    """The springs that do, the best few, and those that fall out."""

    best: tuple[Trial, ...]
    rejected: tuple[Trial, ...]

    def next_softer(self, trial: Trial) -> Trial | None:
        """The spring with the next lower preload, whether it holds or not."""
        weaker = [t for t in (*self.best, *self.rejected) if t.preload is not None and t.preload < (trial.preload or 0)]
        return max(weaker, key=lambda t: t.preload or 0.0, default=None)

    @property
    def softest(self) -> Trial | None:
        """The softest spring that does: least force taken from the press."""
        return min(self.best, key=lambda t: t.preload or 0.0, default=None)


def try_spring(spring: Spring, basis: Basis) -> Trial:
    """One spring in the place; an impossible fit is a finding that fails, not an error."""
    try:
        outcome = check_spring(spring, basis)
        preload = spring.count * Coil(spring).least_force(spring.fitted)
    except InputError as error:
        found = (*fits(Coil(spring)), *(_no_room(spring, problem) for problem in error.problems))
        return Trial(spring, None, Outcome(found))
    except NotCovered as reason:
        return Trial(spring, None, Outcome((*fits(Coil(spring)), not_checked(spring.name, ROOM, str(reason)))))
    return Trial(spring, preload, outcome)


def _no_room(spring: Spring, problem: Problem) -> Finding:
    reason = f"{problem.key} {problem.given} {problem.fault}"
    return Finding(spring.name, ROOM, "open", None, None, None, "fails", "the room stated", reason)


def _reason(finding: Finding) -> str:
    if finding.verdict == "not checked":
        return f"{finding.check} not checked: {finding.reason}"
    if finding.check in (GUIDE_FIT, ROOM):
        return finding.reason
    if finding.capacity is None or finding.demand is None:
        return f"{finding.check}: nothing left"
    # Springs are spoken of in newtons, whatever the tables print.
    unit = "N" if finding.demand.unit == "kN" else finding.demand.unit
    demand, capacity = (
        f"{a.value:.0f}" if a.value >= 1e4 else f"{a.value:.4g}" for a in (finding.demand, finding.capacity)
    )
    return f"{finding.check}: {demand} against {capacity} {unit}"


def choose_spring(wanted: Wanted, candidates: Iterable[Spring], basis: Basis, few: int | None = 5) -> Choice:
    """The best few of the candidates (None: all that do), and every one that falls out with its reasons.

    Best is what rests on fewest conditions, then most in hand, to a tenth; among those alike the lightest. The
    conditions stand in the outcome. Raises InputError where the place itself cannot be.
    """
    _refuse_impossible(wanted)
    trials = [try_spring(spring, basis) for spring in candidates]
    good = sorted((t for t in trials if t.holds), key=_rank)
    return Choice(tuple(good[:few]), tuple(t for t in trials if not t.holds))


def _rank(trial: Trial) -> tuple[int, int, float]:
    coil = Coil(trial.spring)
    return len(trial.conditions), math.ceil(10 * (trial.utilisation or 0.0)), coil.d**2 * coil.D * coil.n_t


def from_stock(wanted: Wanted, path: str | Path | None = None) -> list[Spring]:
    """The springs of a stock list in the place; None: the list that comes with the package. Raises InputError."""
    path = Path(path) if path is not None else data_folder() / "springs_stock.csv"
    return [wanted.fitted(**row) for row in read_stock(path)]


def read_stock(path: str | Path) -> list[dict[str, Any]]:
    """Rows of a stock list, lengths in mm. Raises InputError with every bad cell."""
    path = Path(path)
    try:
        with open(path, newline="", encoding="utf-8-sig") as file:
            lines = csv.DictReader(file, strict=True)
            heads = [head.strip() for head in lines.fieldnames or []]
            lines.fieldnames = heads
            rows = list(lines)
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise InputError(Problem("", "", f"cannot be read: {error}", "a CSV file, UTF-8", file=str(path))) from None
    problems = [
        Problem(head, "", "column is missing", f"columns {', '.join(COLUMNS)}", part="first row")
        for head in COLUMNS
        if head not in heads
    ]
    problems += [
        Problem(head, "", "is a column nobody here knows", f"columns {', '.join(COLUMNS + OPTIONAL)}", part="first row")
        for head in heads
        if head not in COLUMNS + OPTIONAL
    ]
    found = [_row(row, problems, f"row {number}") for number, row in enumerate(rows, 2)] if not problems else []
    if problems:
        raise InputError(problem.within(file=str(path)) for problem in problems)
    return found


def _row(row: dict[str, str], problems: list[Problem], part: str) -> dict[str, Any]:
    made: dict[str, Any] = {"name": (row["name"] or "").strip()}
    if not made["name"]:
        problems.append(Problem("name", "", "is empty", "a name", part=part))
    for key in ("wire", "mean", "turns", "free"):
        made[key] = _number(row[key], key, problems, part)
    for key, choices in (("ends", ("ground", "plain")), ("coiling", ("cold", "hot"))):
        made[key] = (row[key] or "").strip()
        if made[key] not in choices:
            problems.append(Problem(key, f'"{made[key]}"', "is not known", f"one of {', '.join(choices)}", part=part))
    try:
        made["grade"] = find_wire(row["grade"] or "")
    except InputError as error:
        problems += [problem.within(part=part) for problem in error.problems]
    return made


def _number(text: str | None, key: str, problems: list[Problem], part: str) -> float:
    try:
        value = float(text or "")
    except ValueError:
        value = math.nan
    if not (math.isfinite(value) and value > 0):
        problems.append(
            Problem(key, f'"{(text or "")[:30]}"', "is not a number above zero", "a number in mm", part=part)
        )
    return value


def from_wire_sizes(wanted: Wanted, grade: str = "SM") -> list[Spring]:
    """Springs made for the place: for each wire and index the most coils that stay off solid, ends ground.

    Many coils make a soft spring, and a long soft spring serves better than a short stiff one: less force taken from
    the press for the same force at the top.
    """
    wire = find_wire(grade)
    each = WANTED_MARGIN * wanted.fitted(name="", rate=1.0, free=wanted.space).duty.needed / wanted.count
    made = []
    for d in WIRES:
        for w in INDICES:
            n = _most_coils(d, w * d, wanted)
            if n < 2:
                continue
            rate = en.spring_rate(wire.G, d, w * d, n)
            free = 5 * math.ceil((wanted.space + each / rate) / 5)
            name = f"wire {d:g}, mean {w * d:g}, {n:g} active, free {free:g}"
            made.append(wanted.fitted(name=name, wire=d, mean=w * d, active=n, ends="ground", grade=wire, free=free))
    return made


def _most_coils(d: float, D: float, wanted: Wanted) -> float:
    """Coils that fit with the least clearance at full stroke, in halves."""
    room = wanted.space - wanted.travel - 2 * d
    n = room / (d + en.clearance_cold(1.0, D, d))
    return min(math.floor(2 * n) / 2, MOST_COILS)


def explain(choice: Choice, few: int = 3, best: int = 5) -> Sequence[str]:
    """The choice in lines: the best with what they have in hand, then what the softer and nearest ones lack."""
    if not choice.best:
        lines = ["no spring does" + (":" if few and choice.rejected else "")]
    else:
        lines = [
            f"{t.spring.name}: preload {t.preload:.0f} N, nearest its limit at {t.utilisation:.2f}{_if(t)}"
            for t in choice.best[:best]
        ]
    nearest = sorted(choice.rejected, key=lambda t: (len(t.reasons), t.utilisation or math.inf))
    lines += [f"{t.spring.name} falls out: {'; '.join(t.reasons)}" for t in nearest[:few]]
    return lines


def _if(trial: Trial) -> str:
    return f", if {'; '.join(trial.conditions)}" if trial.conditions else ""


def kept_out(choice: Choice) -> Outcome:
    """The finding that kept each spring out, one a spring, and what was assumed for all of them alike."""
    findings = tuple(min(t.against, key=lambda f: f.verdict != "fails") for t in choice.rejected)
    assumed = [{a.text: a for a in t.outcome.assumptions} for t in choice.rejected if t.outcome.assumptions]
    alike = [a for text, a in assumed[0].items() if all(text in other for other in assumed)] if assumed else []
    return Outcome(findings, assumptions=tuple(replace(a, part="springs") for a in alike if not a.condition))


def why_not(trial: Trial) -> str:
    """A spring that falls out, and what it lacks."""
    preload = "" if trial.preload is None else f" (preload {trial.preload:.0f} N)"
    return f"{trial.spring.name}{preload}: {'; '.join(trial.reasons)}"


def _refuse_impossible(wanted: Wanted) -> None:
    problems = []
    for key in ("travel", "space"):
        value = getattr(wanted, key)
        if not value > 0:
            problems.append(Problem(f"--{key}", f"{value:g} mm", "is not a length", f"a {key} above zero"))
    if not problems and wanted.space <= wanted.travel:
        given, fault = f"{wanted.space:g} mm", f"is used up by the travel of {wanted.travel:g} mm"
        problems.append(Problem("--space", given, fault, "the room for the spring at the open press"))
    if wanted.rod is not None and wanted.tube is not None and wanted.rod >= wanted.tube:
        given, wants = f"{wanted.rod:g} mm", f"less than the tube, {wanted.tube:g} mm"
        problems.append(Problem("--rod", given, "does not go into the tube", wants))
    problems += wanted.fitted(name="", rate=1.0, free=wanted.space).duty.problems("")
    if problems:
        raise InputError(problems)
