"""Guides of the platen: do they slide, or jam under a load beside their axis."""

from dataclasses import dataclass

from structcheck.checks.basis import RATED, Basis
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome, complete, judged
from structcheck.standards import handbook_guides as handbook

NEEDED = ("guide binding",)

DRY = 0.35
GREASED = 0.15
"""Friction of steel on steel, as taken for checking (common practice)."""

BINDING_LIMIT = 0.5
"""Half of the jam itself; ours, the same as a bearing maker's 2:1 rule at a friction of 0.25 with a factor 2."""


@dataclass(frozen=True, kw_only=True)
class Guide:
    """A guide in the words of the press file; mm.

    length    between the outer edges of contact on the column: one bush, or two short ones far apart
    offset    of the force from the axis of the guide, or from the centre of several
    friction  between guide and column
    """

    name: str
    length: float
    offset: float
    friction: float = DRY


def check_guide(guide: Guide, basis: Basis) -> Outcome:
    """Whether the guide slides. Raises InputError where the description cannot be."""
    _refuse_impossible(guide)
    ratio = handbook.binding_ratio(guide.friction, guide.offset, guide.length)
    finding = judged(
        guide.name,
        "guide binding",
        RATED.name,
        ratio,
        BINDING_LIMIT,
        "",
        f"{handbook.BRACKET}; limit {BINDING_LIMIT:g} ours, 1 is the jam itself",
        reason="jams, whatever the force" if ratio >= 1 else "",
    )
    dry, greased = (handbook.binding_ratio(mu, guide.offset, guide.length) for mu in (DRY, GREASED))
    outcome = Outcome(
        findings=(finding,),
        assumptions=_assumptions(guide),
        answers=(
            f"{guide.name}: 2 mu e / L is {dry:.2f} dry (friction {DRY:g}), {greased:.2f} greased ({GREASED:g}); "
            "1 is the jam",
        ),
    )
    return complete(outcome, guide.name, NEEDED, "not done")


def _assumptions(guide: Guide) -> tuple[Assumption, ...]:
    if guide.friction != DRY:
        return ()
    return (Assumption(guide.name, f"friction of the guide {DRY:g}: steel on steel, dry"),)


def _refuse_impossible(guide: Guide) -> None:
    part = f'guide "{guide.name}"'
    problems = []
    if not guide.length > 0:
        given, wanted = f"{guide.length:g} mm", "the length between the outer edges of contact"
        problems.append(Problem("length", given, "is not a length", wanted, 'length = "120 mm"', part))
    if guide.offset < 0:
        problems.append(Problem("offset", f"{guide.offset:g} mm", "is negative", "zero or more", part=part))
    if not guide.friction >= 0:
        problems.append(
            Problem("friction", f"{guide.friction:g}", "is negative", "a friction from 0 up", "friction = 0.35", part)
        )
    if problems:
        raise InputError(problems)
