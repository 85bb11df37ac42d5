"""The lightest section by which a beam question holds, why the next lighter does not, and the next few that do."""

from collections.abc import Sequence
from dataclasses import dataclass

from structcheck.errors import InputError
from structcheck.findings import Finding, Outcome, worst
from structcheck.press.parts import run_beam
from structcheck.press.schema import BeamTable
from structcheck.press.setting import Setting
from structcheck.shapes.section import Section

BORNE = ("bending", "shear")
"""Checks without which nothing is known to hold."""

FEW = 3


@dataclass(frozen=True)
class SectionTried:
    """One section in the place of the beam's: what speaks against it, nothing where it holds.

    against  the worst finding against it; None also where it cannot be there at all, then `reason` says why
    """

    section: Section
    outcome: Outcome
    against: Finding | None = None
    reason: str = ""

    @property
    def holds(self) -> bool:
        """Whether no check that was done fails, and those that matter most were done."""
        return self.against is None and not self.reason


@dataclass(frozen=True)
class SectionsFound:
    """The lightest few that hold, the next lighter one than the first, and how many were tried."""

    best: tuple[SectionTried, ...]
    lighter: SectionTried | None
    last: SectionTried | None
    tried: int


def find_section(table: BeamTable, sections: Sequence[Section], setting: Setting, few: int = FEW) -> SectionsFound:
    """The lightest of these sections, every one checked in full, from the lightest up."""
    best: list[SectionTried] = []
    lighter = last = None
    tried = 0
    for section in sorted(sections, key=lambda s: (s.mass, s.designation)):
        last = _tried(table, section, setting)
        tried += 1
        if last.holds:
            best.append(last)
        elif not best:
            lighter = last
        if len(best) == few:
            break
    return SectionsFound(tuple(best), lighter, last, tried)


def _tried(table: BeamTable, section: Section, setting: Setting) -> SectionTried:
    try:
        outcome = run_beam(table.model_copy(update={"section": section.designation}), setting)
    except InputError as error:
        return SectionTried(section, Outcome(), reason=error.problems[0].fault)
    against = [f for f in outcome.findings if f.verdict == "fails" or (f.check in BORNE and f.verdict == "not checked")]
    return SectionTried(section, outcome, worst(against) if against else None)
