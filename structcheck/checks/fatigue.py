"""Fatigue: the stress range of one press against the range a detail bears over the life of the frame.

Every press is one cycle from nothing to the rated force. The verdict is drawn for the worst detail of a part; the
life of every detail, in presses, goes to the answers, also where the user has turned the verdict off.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from structcheck.checks.basis import Basis
from structcheck.findings import Finding, NotNeeded, Outcome, interaction, judged, not_checked, worst
from structcheck.formula import remark, unrecorded
from structcheck.record import record
from structcheck.showing import count, show
from structcheck.standards import en1993_1_9 as curves

CHECK = "fatigue"
DIRECT, SHEAR = 3, 5
NO_RANGE = 1e-9
"""MPa; below it a range is what rounding leaves."""


@record
class Detail:
    """A detail of EN 1993-1-9 section 8.

    name      what a builder would call it
    category  stress range in MPa borne 2 million times
    m         slope of the curve: 3 for direct stress, 5 for shear
    source    table, and how the figure is known
    most      the range may never be more (1.5 f_y, or 1.5 f_y / sqrt(3) in shear: clause 8(1)), in MPa
    """

    name: str
    category: float
    m: int
    source: str
    most: float = math.inf


def _detail(name: str, category: float, m: int, table: str) -> Detail:
    return Detail(name, category, m, f"EN 1993-1-9:2005 {table} (category recalled, not read)")


DETAILS: Mapping[str, Detail] = {
    d.name: d
    for d in (
        _detail("rolled parent metal", 160, DIRECT, "Table 8.1"),
        # 140 up to 12.5 mm is recalled as well; the lower figure of the thicker walls is kept for all.
        _detail("seam-welded tube", 125, DIRECT, "Table 8.2"),
        _detail("cut edge", 125, DIRECT, "Table 8.1"),
        _detail("plate with holes", 90, DIRECT, "Table 8.1"),
        _detail("plate with ordinary bolts", 50, DIRECT, "Table 8.1"),
        _detail("bolt in tension", 50, DIRECT, "Table 8.1"),
        _detail("bolt in shear", 100, SHEAR, "Table 8.1"),
        _detail("parent metal in shear", 100, SHEAR, "Table 8.1"),
        _detail("longitudinal weld", 100, DIRECT, "Table 8.2"),
        _detail("intermittent longitudinal weld", 80, DIRECT, "Table 8.2"),
        _detail("butt weld", 71, DIRECT, "Table 8.3"),
        _detail("butt weld from one side, root not inspected", 36, DIRECT, "Table 8.3"),
        _detail("transverse attachment to 50 mm", 80, DIRECT, "Table 8.4"),
        _detail("transverse attachment to 80 mm", 71, DIRECT, "Table 8.4"),
        _detail("longitudinal attachment to 50 mm", 80, DIRECT, "Table 8.4"),
        _detail("longitudinal attachment to 80 mm", 71, DIRECT, "Table 8.4"),
        _detail("longitudinal attachment to 100 mm", 63, DIRECT, "Table 8.4"),
        _detail("longitudinal attachment over 100 mm", 56, DIRECT, "Table 8.4"),
        _detail("cruciform toe to 50 mm", 80, DIRECT, "Table 8.5"),
        _detail("cruciform toe to 80 mm", 71, DIRECT, "Table 8.5"),
        _detail("cruciform toe, any size", 40, DIRECT, "Table 8.5"),
        _detail("weld root", 36, DIRECT, "Table 8.5"),
        _detail("fillet weld in shear", 80, SHEAR, "Table 8.5"),
        _detail("cover plate end", 50, DIRECT, "Table 8.5"),
    )
}
"""Details by name. A root crack in a fillet cannot be seen from outside: "weld root" is on the throat stress.

"plate with holes" is for open holes, preloaded or fitted bolts; "plate with ordinary bolts" for clearance holes.
"cut edge" is for machine cuts with shallow regular drag lines, all sharp corners and flaws ground away.
"""


def bolt_in_tension(d: float) -> Detail:
    """The detail of a bolt or rod in tension of diameter d in mm, on its stress area; the size factor included."""
    detail = DETAILS["bolt in tension"]
    return replace(detail, category=detail.category * curves.bolt_size_factor(d)) if d > 30 else detail


def range_allowed(detail: Detail, presses: float, gamma_Mf: float) -> float:
    """Stress range in MPa that the detail bears over a number of presses.

    Below 10,000 presses the curves do not reach: their value at 10,000 is kept.
    """
    cycles = min(max(presses, curves.FEWEST_CYCLES), curves.CUT_OFF_CYCLES)
    if detail.m == SHEAR or cycles <= curves.KNEE_CYCLES:
        resisted = curves.range_resisted(detail.category, cycles, detail.m)
    else:
        limit = curves.constant_amplitude_limit(detail.category, DIRECT)
        resisted = curves.range_resisted_beyond_knee(limit, cycles, 5)
    return min(resisted / gamma_Mf, detail.most)


def life_in_presses(detail: Detail, stress_range: float, gamma_Mf: float) -> float:
    """Presses the detail bears at a stress range in MPa; infinite at or below the cut-off limit."""
    design = gamma_Mf * abs(stress_range)
    if detail.m == SHEAR:
        cut_off = curves.cut_off_limit_shear(detail.category, SHEAR)
        return math.inf if design <= cut_off else curves.life(detail.category, abs(stress_range), SHEAR, gamma_Mf)
    limit = curves.constant_amplitude_limit(detail.category, DIRECT)
    if design <= curves.cut_off_limit(limit, 5):
        return math.inf
    if design < limit:
        return curves.life_beyond_knee(limit, abs(stress_range), 5, gamma_Mf)
    return curves.life(detail.category, abs(stress_range), DIRECT, gamma_Mf)


def fatigue(
    part: str,
    ranges: Sequence[tuple[Detail, float]],
    basis: Basis,
    *,
    case: str = "rated",
    together: bool = False,
) -> Outcome:
    """The finding "fatigue" of the worst detail, and the life of every detail in presses among the answers.

    ranges    (detail, stress range in MPa between nothing and the rated force)
    together  the ranges act at one spot, and their damages add (8(3)): shear and direct stress of one weld

    With `basis.static` there is no verdict; the lives are still given.
    """
    if not ranges:
        return Outcome((not_checked(part, CHECK, "no stress range is known for this part"),))
    answers = tuple(_life_text(part, detail, stress, basis) for detail, stress in ranges)
    if together and len(ranges) > 1:
        answers += (f"{part}: all of these together, {_count(_joint_life(ranges, basis.gamma_Mf))}",)
    if basis.static:
        shortest = min(life_in_presses(detail, stress, basis.gamma_Mf) for detail, stress in ranges)
        if together:
            shortest = min(shortest, _joint_life(ranges, basis.gamma_Mf))
        reason = f"the use states static = true, no verdict on fatigue; shortest {_count(shortest)}"
        return Outcome(does_not_apply=(NotNeeded(part, CHECK, reason),), answers=answers)
    findings = [_judge(part, detail, stress, basis, case) for detail, stress in ranges]
    if together and len(ranges) > 1:
        findings.append(_judge_together(part, ranges, basis, case))
    return Outcome((worst(findings),), answers=answers)


def worse_of(one: Outcome, other: Outcome) -> Outcome:
    """Two spots of one part, each cracking by itself: the worse finding, and the lives of both."""
    findings = (worst((*one.findings, *other.findings)),) if one.findings else ()
    return replace(one, findings=findings, answers=(*one.answers, *other.answers))


def _judge(part: str, detail: Detail, stress: float, basis: Basis, case: str) -> Finding:
    remark(f"{detail.name}: category {detail.category:g}, slope {detail.m}", detail.source)
    allowed = range_allowed(detail, basis.presses, basis.gamma_Mf)
    lasts = _count(life_in_presses(detail, stress, basis.gamma_Mf))
    reason = f"{detail.name}, category {detail.category:.3g}: {lasts}{_short(basis)}"
    return judged(part, CHECK, case, abs(stress), allowed, "MPa", detail.source, reason=reason)


def _judge_together(part: str, ranges: Sequence[tuple[Detail, float]], basis: Basis, case: str) -> Finding:
    presses = max(basis.presses, curves.FEWEST_CYCLES)

    def damage(factor: float) -> float:
        return sum(presses / life_in_presses(d, factor * s, basis.gamma_Mf) for d, s in loaded)

    names = " and ".join(detail.name for detail, _ in ranges)
    reason = f"{names} at one spot: {_count(_joint_life(ranges, basis.gamma_Mf))}{_short(basis)}"
    source = "EN 1993-1-9:2005 7.1, 8(3)"
    loaded = [(d, abs(s)) for d, s in ranges if not abs(s) <= NO_RANGE]
    if not all(math.isfinite(s) for _, s in loaded):
        return judged(part, CHECK, case, math.nan, 1.0, "", source, reason="a stress range is not finite")
    if not loaded:
        return interaction(part, CHECK, case, math.inf, source, clause_ratio=0.0, reason=reason)
    # No detail alone can bear more than its own allowed range, so the joint factor lies below the least of these.
    high = min(range_allowed(d, presses, basis.gamma_Mf) / s for d, s in loaded)
    # Damage falls with the cube of the range or faster, so that a little less than that is borne together.
    with unrecorded():
        low = high if damage(high) <= 1 else _borne(damage, high / len(loaded) ** (1 / DIRECT), high)
    damage(low)  # once more, so that a working shows it
    return interaction(part, CHECK, case, low, source, clause_ratio=damage(1.0), reason=reason)


def _borne(damage: Callable[[float], float], low: float, high: float) -> float:
    """The factor at which damage reaches 1, from below: false position (Illinois), for logarithms of damage over factor
    are all but straight; by halves where there is no damage at `low`."""
    under, over = _log(damage(low)), _log(damage(high))
    moved = 0
    while high - low > 1e-13 * high:
        share = 0.5 if math.isinf(under) else under / (under - over)
        middle = min(max(low * (high / low) ** share, low * (1 + 4e-14)), high * (1 - 4e-14))
        found = _log(damage(middle))
        if found <= 0:
            low, under, over, moved = middle, found, over / (2 if moved < 0 else 1), -1
        else:
            high, over, under, moved = middle, found, under / (2 if moved > 0 else 1), 1
    return low


def _log(damage: float) -> float:
    return math.log(damage) if damage > 0 else -math.inf


def _joint_life(ranges: Sequence[tuple[Detail, float]], gamma_Mf: float) -> float:
    damage = sum(1 / life_in_presses(detail, stress, gamma_Mf) for detail, stress in ranges)
    return 1 / damage if damage > 0 else math.inf


def _life_text(part: str, detail: Detail, stress: float, basis: Basis) -> str:
    life = _count(life_in_presses(detail, stress, basis.gamma_Mf))
    return f"{part}: {detail.name} (category {detail.category:.3g}) at a range of {show(abs(stress), 'MPa')}, {life}"


def _count(presses: float) -> str:
    if math.isnan(presses):
        return "life not known"
    if presses > curves.CUT_OFF_CYCLES:
        return "life over 100 000 000 presses"
    if presses < curves.FEWEST_CYCLES:
        return "life under 10 000 presses, where the curves begin"
    # Rounded down to three figures: more would pretend to a knowledge nobody has of a fatigue life.
    step = 10 ** (math.floor(math.log10(presses)) - 2)
    return f"life {count(math.floor(presses / step) * step)} presses"


def _short(basis: Basis) -> str:
    if basis.presses >= curves.FEWEST_CYCLES:
        return ""
    return f"; judged at 10 000 presses, where the curves begin ({count(basis.presses)} are stated)"
