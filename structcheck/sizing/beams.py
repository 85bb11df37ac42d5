"""The lightest section by which a beam question holds, why the next lighter does not, and the next few that do."""

from collections.abc import Sequence

from structcheck.errors import InputError
from structcheck.findings import Finding, Outcome, worst
from structcheck.press.parts import run_beam
from structcheck.press.schema import BeamTable
from structcheck.press.setting import Setting
from structcheck.record import record
from structcheck.shapes.section import Section

BORNE = ("bending", "shear")
"""Checks without which nothing is known to hold."""

FEW = 3

REACH = 1.5
"""How much heavier than the lightest that holds a section may be and still be weighed for being judged more; ours."""


@record
class SectionTried:
    """One section in the place of the beam's: what speaks against it, nothing where it holds.

    against  the worst finding against it; None also where it cannot be there at all, then `reason` says why
    """

    section: Section
    outcome: Outcome
    against: Finding | None = None
    reason: str = ""

    @property
    def unjudged(self) -> tuple[str, ...]:
        """Checks that could not be done on it."""
        return tuple(f.check for f in self.outcome.findings if f.verdict == "not checked")

    @property
    def holds(self) -> bool:
        """Whether no check that was done fails, and those that matter most were done."""
        return self.against is None and not self.reason


@record
class SectionsFound:
    """What a search among sections gave.

    best     the lightest few of those that hold with the fewest checks left undone
    open     the lightest that holds, where more was left undone on it than on those
    lighter  the next lighter than the first of `best`, or than `open`, that fails
    """

    best: tuple[SectionTried, ...]
    open: SectionTried | None
    lighter: SectionTried | None
    last: SectionTried | None
    tried: int


def find_section(table: BeamTable, sections: Sequence[Section], setting: Setting, few: int = FEW) -> SectionsFound:
    """The lightest of these sections, every one checked in full, from the lightest up.

    A section on which less could be checked than on another is no better for it: among those not much heavier than the
    lightest that holds, the ones with the fewest checks left undone go first.
    """
    good: list[SectionTried] = []
    lighter = last = None
    tried = 0
    for section in sorted(sections, key=lambda s: (s.mass, s.designation)):
        if good and section.mass > REACH * good[0].section.mass:
            break
        last = _tried(table, section, setting)
        tried += 1
        if last.holds:
            good.append(last)
        elif not good:
            lighter = last
    fewest = min((len(t.unjudged) for t in good), default=0)
    best = tuple(t for t in good if len(t.unjudged) == fewest)[:few]
    return SectionsFound(best, good[0] if good and good[0] not in best else None, lighter, last, tried)


def _tried(table: BeamTable, section: Section, setting: Setting) -> SectionTried:
    try:
        outcome = run_beam(table.model_copy(update={"section": section.designation}), setting)
    except InputError as error:
        return SectionTried(section, Outcome(), reason=error.problems[0].fault)
    against = [f for f in outcome.findings if f.verdict == "fails" or (f.check in BORNE and f.verdict == "not checked")]
    return SectionTried(section, outcome, worst(against) if against else None)
