"""Findings, the verdict drawn from them, and the caution every output carries."""

import math
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from html import escape
from typing import Any, Literal, NamedTuple, TypeVar

from structcheck.formula import Remark, Step, Trace, cut, recording, unrecorded
from structcheck.maths import just_below
from structcheck.record import record
from structcheck.showing import in_unit

CAUTION = (
    "This is a check, not a sign-off. Have a qualified engineer sign off the press before it is used; "
    "local codes and licensed practice come first. Not judged here: hydraulics, soundness of welds, the workpiece, "
    "guards. Never go over the rated force; stay shielded and out of the line of force, nothing loose or off line; "
    "proof-test the frame before use. EN 1993 is written for buildings: here it is good practice, not conformity."
)

_Load = TypeVar("_Load")

Verdict = Literal["holds", "fails", "not checked"]
Overall = Literal["holds", "holds if", "fails", "incomplete"]

EXIT_STATUS: Mapping[str, int] = {"holds": 0, "fails": 1, "incomplete": 3, "holds if": 3}


class Amount(NamedTuple):
    """A value in base units (N, mm, MPa) and the unit it is printed in."""

    value: float
    unit: str

    def as_dict(self) -> dict[str, Any]:
        """Value in its printed unit, unrounded."""
        return {"value": in_unit(self.value, self.unit), "unit": self.unit}


@record
class Finding:
    """The answer of one check of one part in the case that governs it.

    utilisation   the inverse of the factor by which all actions of the case can grow together
    clause_ratio  the clause's own ratio where it is not the utilisation (squares, interactions)
    reason        why it is not checked, or what governed
    user_force    the demand comes from a force the user typed
    trace         the formulas evaluated for it, where a working was open
    """

    part: str
    check: str
    case: str
    demand: Amount | None
    capacity: Amount | None
    utilisation: float | None
    verdict: Verdict
    source: str
    reason: str = ""
    clause_ratio: float | None = None
    user_force: bool = False
    trace: Trace | None = field(default=None, compare=False, repr=False)

    @property
    def steps(self) -> tuple[Step | Remark, ...]:
        """The very calls that decided it, since the finding before; empty where no working was open."""
        return self.trace.steps if self.trace else ()

    def as_dict(self) -> dict[str, Any]:
        """The fields of the JSON contract."""
        return {
            "part": self.part,
            "check": self.check,
            "case": self.case,
            "demand": self.demand.as_dict() if self.demand else None,
            "capacity": self.capacity.as_dict() if self.capacity else None,
            "utilisation": self.utilisation,
            "clause_ratio": self.clause_ratio,
            "verdict": self.verdict,
            "source": self.source,
            "reason": self.reason,
            "user_force": self.user_force,
        }


def judged(
    part: str,
    check: str,
    case: str,
    demand: float,
    capacity: float,
    unit: str,
    source: str,
    *,
    reason: str = "",
    clause_ratio: float | None = None,
) -> Finding:
    """A finding from a demand and a capacity in base units; compared unrounded.

    A utilisation that is not finite (no capacity left) fails and says so.
    """
    utilisation = demand / capacity if capacity > 0 else math.inf if demand > 0 or capacity < 0 else math.nan
    if not (math.isfinite(utilisation) and math.isfinite(demand)):
        why = reason or "nothing is left to carry the demand"
        shown = Amount(demand, unit) if math.isfinite(demand) else None
        ratio = clause_ratio if clause_ratio is None or math.isfinite(clause_ratio) else None
        return Finding(part, check, case, shown, None, None, "fails", source, why, ratio, trace=cut())
    verdict: Verdict = "holds" if utilisation <= 1 else "fails"
    return Finding(
        part,
        check,
        case,
        Amount(demand, unit),
        Amount(capacity, unit),
        utilisation,
        verdict,
        source,
        reason,
        clause_ratio,
        trace=cut(),
    )


def interaction(
    part: str, check: str, case: str, load_factor: float, source: str, *, clause_ratio: float | None, reason: str = ""
) -> Finding:
    """A finding where effects combine: demand is 1 / the factor by which all actions can grow, capacity is 1."""
    demand = 0.0 if math.isinf(load_factor) else 1 / load_factor if load_factor > 0 else math.inf
    return judged(part, check, case, demand, 1.0, "", source, reason=reason, clause_ratio=clause_ratio)


def not_checked(part: str, check: str, reason: str, *, case: str = "", source: str = "") -> Finding:
    """A check that is needed and could not be done; never a pass."""
    return Finding(part, check, case, None, None, None, "not checked", source, reason, trace=cut())


def worst(findings: Iterable[Finding]) -> Finding:
    """The finding that governs: one that fails, else one that is not checked, else the highest utilisation.

    A failure that is known is told whatever else is not, and says what was not checked beside it.
    """
    made = list(findings)
    found = made[_governing(made)]
    unknown = next((f.reason for f in made if f.verdict == "not checked"), "")
    if found.verdict != "fails" or not unknown or unknown in found.reason:
        return found
    return replace(found, reason=f"{found.reason}; not checked beside it: {unknown}".removeprefix("; "))


def worst_case(
    judge: Callable[[_Load], Finding], cases: Iterable[_Load], most: Iterable[float] | None = None
) -> Finding:
    """`worst` of a check in several cases; where a working is open the governing case is judged once more, for it.

    most  utilisation that each case cannot pass, where every case can be judged: cases are then taken from the highest
          down, until none that is left can govern
    """
    tried = list(cases)
    if len(tried) == 1:
        return judge(tried[0])
    bounds = [math.inf] * len(tried) if most is None else list(most)
    found: dict[int, Finding] = {}
    reached = 0.0
    with unrecorded():
        for number in sorted(range(len(tried)), key=lambda number: -round(bounds[number], 9)):
            if found and bounds[number] <= reached * (1 + 1e-12):  # of equals, told apart by rounding, one is enough
                break
            found[number] = judge(tried[number])
            reached = max(reached, found[number].utilisation or 0.0)
    in_order = sorted(found)
    made = [found[number] for number in in_order]
    governing, answer = in_order[_governing(made)], worst(made)
    return replace(answer, trace=judge(tried[governing]).trace) if recording() else answer


def _governing(made: Sequence[Finding]) -> int:
    """Number of the finding that governs; of those that only rounding tells apart the first."""
    severities = [_severity(finding) for finding in made]
    order, most = max(severities)
    least = order, just_below(most)
    return next(number for number, severity in enumerate(severities) if severity >= least)


def _severity(finding: Finding) -> tuple[int, float]:
    order = {"holds": 0, "not checked": 1, "fails": 2}[finding.verdict]
    return order, sys.float_info.max if finding.utilisation is None else finding.utilisation


def _use_shown(finding: Finding) -> str:
    """Rounded up to two decimals, so that 1.001 never shows as 1.00."""
    if finding.utilisation is None:
        return "" if finding.verdict == "not checked" else "over"
    return f"{math.ceil(round(finding.utilisation * 100, 9)) / 100:.2f}"


@record
class Assumption:
    """Something taken for the user; `condition` where strength rests on it and the user has not confirmed it."""

    part: str
    text: str
    condition: str = ""


@record
class NotNeeded:
    """A check that cannot occur here, and why."""

    part: str
    check: str
    reason: str


@record
class TimesOnYield:
    """f_y over the elastic stress of a part at rated load."""

    part: str
    value: float


@record
class Outcome:
    """What the checks of one part, or of several, gave."""

    findings: tuple[Finding, ...] = ()
    does_not_apply: tuple[NotNeeded, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    times_on_yield: tuple[TimesOnYield, ...] = ()
    answers: tuple[str, ...] = ()
    advice: tuple[str, ...] = ()

    def __add__(self, other: "Outcome") -> "Outcome":
        return Outcome(
            self.findings + other.findings,
            self.does_not_apply + other.does_not_apply,
            self.assumptions + other.assumptions,
            self.times_on_yield + other.times_on_yield,
            self.answers + other.answers,
            self.advice + other.advice,
        )


def complete(outcome: Outcome, part: str, needed: Iterable[str], reason: str) -> Outcome:
    """Add a `not checked` finding for every needed check that has neither a finding nor a reason not to apply."""
    done = {f.check for f in outcome.findings if f.part == part} | {
        n.check for n in outcome.does_not_apply if n.part == part
    }
    missing = tuple(not_checked(part, check, reason) for check in needed if check not in done)
    return replace(outcome, findings=outcome.findings + missing)


RULES_OF_DETAIL = frozenset(
    {
        "weld size",
        "bolt spacing",
        "lug geometry",
        "brittle fracture",
        "retention",
        "resultant",
        "stroke",
        "jack opening",
        "spring guide fit",
        "spring room",
        "shear under the plate",
    }
)
"""Checks that no load brings nearer: they hold or they do not."""


@dataclass(frozen=True)
class Result:
    """The answer to a question: verdict, findings, what was assumed, and the caution.

    title         of the press or the question
    basis         factors and forces the answer rests on, as printed
    outcome       everything the checks gave
    input_sha256  of the file's text, or of what was asked: by it a signed output is matched to its input
    drawing       plain text drawing of the frame that was understood, empty where no frame is described
    """

    title: str
    basis: Mapping[str, Any]
    outcome: Outcome = field(default_factory=Outcome)
    caution: str = CAUTION
    input_sha256: str = ""
    drawing: str = ""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding, in the order of the parts."""
        return self.outcome.findings

    @property
    def does_not_apply(self) -> tuple[NotNeeded, ...]:
        """Checks that cannot occur."""
        return self.outcome.does_not_apply

    @property
    def assumptions(self) -> tuple[Assumption, ...]:
        """What was taken for the user, each text once for each part."""
        return tuple(dict.fromkeys(self.outcome.assumptions))

    @property
    def conditions(self) -> tuple[Assumption, ...]:
        """The assumptions on which strength rests."""
        return tuple(a for a in self.assumptions if a.condition)

    @property
    def verdict(self) -> Overall:
        """fails, incomplete, holds if or holds; a result without any finding is incomplete."""
        verdicts = {f.verdict for f in self.findings}
        if "fails" in verdicts:
            return "fails"
        if "not checked" in verdicts or not verdicts:
            return "incomplete"
        return "holds if" if self.conditions else "holds"

    @property
    def ranked(self) -> tuple[Finding, ...]:
        """The findings that were judged, the first to go first."""
        judged_ones = [f for f in self.findings if f.verdict != "not checked"]
        return tuple(sorted(judged_ones, key=_severity, reverse=True))

    @property
    def first_to_go(self) -> tuple[Finding, ...]:
        """The worst judged finding of each part, first to go first; rules of detail, which no load moves, are out."""
        of_part: dict[str, Finding] = {}
        for finding in self.ranked:
            if finding.check not in RULES_OF_DETAIL:
                of_part.setdefault(finding.part, finding)
        return tuple(of_part.values())

    @property
    def governing(self) -> Finding | None:
        """The finding nearest to, or furthest over, its limit."""
        return self.ranked[0] if self.ranked else None

    @property
    def times_on_yield(self) -> TimesOnYield | None:
        """The lowest f_y / elastic stress at rated load."""
        return min(self.outcome.times_on_yield, key=lambda t: t.value, default=None)

    @property
    def working(self) -> tuple[tuple[Finding, tuple[Step | Remark, ...]], ...]:
        """Each finding with the very calls that decided it, where they were kept (`working=True`)."""
        return tuple((finding, finding.steps) for finding in self.findings)

    @property
    def exit_status(self) -> int:
        """0 holds, 1 fails, 3 incomplete or holds if."""
        return EXIT_STATUS[self.verdict]

    def _repr_html_(self) -> str:
        """A short table for a notebook: verdict, every finding with the first to go on top, the caution."""
        order = sorted(self.findings, key=_severity, reverse=True)
        cells = ((f.part, f.check, f.case, _use_shown(f), f.verdict, f.source or f.reason) for f in order)
        rows = "".join(f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in row)}</tr>" for row in cells)
        heads = "".join(f"<th>{head}</th>" for head in ("part", "check", "case", "use", "verdict", "source"))
        return (
            f"<p><strong>{escape(self.title)}: {self.verdict}</strong></p>"
            f"<table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table><p>{escape(self.caution)}</p>"
        )

    def as_dict(self) -> dict[str, Any]:
        """The JSON contract: strict numbers, base facts first."""
        governing, yielding = self.governing, self.times_on_yield
        return {
            "schema": 1,
            "title": self.title,
            "basis": dict(self.basis),
            "verdict": self.verdict,
            "conditions": list(dict.fromkeys(a.condition for a in self.conditions)),
            "governing": governing
            and {
                "part": governing.part,
                "check": governing.check,
                "case": governing.case,
                "utilisation": governing.utilisation,
            },
            "times_on_yield": yielding and {"part": yielding.part, "value": yielding.value},
            "findings": [f.as_dict() for f in self.findings],
            "does not apply": [{"part": n.part, "check": n.check, "reason": n.reason} for n in self.does_not_apply],
            "assumptions": [{"part": a.part, "text": a.text} for a in self.assumptions],
            "answers": list(self.outcome.answers),
            "advice": list(dict.fromkeys(self.outcome.advice)),
            "caution": self.caution,
        }
