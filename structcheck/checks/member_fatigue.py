"""Fatigue of a member's own metal and of what is welded or drilled into it."""

from typing import Any

from structcheck.checks.basis import Basis
from structcheck.checks.fatigue import DETAILS, Detail, fatigue
from structcheck.checks.member_forms import form
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome

UNKNOWN = "unknown"
"""Written where something is welded on and nobody knows how: the root of a fillet, category 36."""


AT_HOLES = ("plate with ordinary bolts", "plate with holes")
"""Details that say how a member is drilled; any other speaks of metal without a hole."""


def member_detail(
    part: str, section: Any, detail: str | None, *, drilled: bool
) -> tuple[Detail, tuple[Assumption, ...]]:
    """The detail of EN 1993-1-9 a member is judged by, and what was taken for it.

    detail   a name of the table, "unknown", or None where nothing was stated
    drilled  it has holes: their category unless a lower one is stated
    """
    if detail == UNKNOWN:
        return DETAILS["weld root"], (Assumption(part, "weld on the member of unknown detail: category 36"),)
    if detail is not None:
        if detail not in DETAILS:
            wanted = f'"{UNKNOWN}" or one of ' + "; ".join(DETAILS)
            remedy = 'detail = "transverse attachment to 50 mm"'
            raise InputError(Problem("detail", f'"{detail}"', "is no detail known here", wanted, remedy, part))
        stated, holes = DETAILS[detail], DETAILS[AT_HOLES[0]]
        if drilled and detail not in AT_HOLES and stated.category > holes.category:
            text = f'fatigue: its holes count as {holes.name}, not as {detail}; "{AT_HOLES[1]}" where no bolt can slip'
            return holes, (Assumption(part, text),)
        return stated, ()
    if drilled:
        name = AT_HOLES[0]
    elif form(section) in ("hollow", "tube"):
        name = "seam-welded tube"
    elif form(section) in ("box", "other") or getattr(section, "route", "") == "welded":
        name = "longitudinal weld"
    else:
        name = "rolled parent metal" if getattr(section, "route", "") in ("rolled", "bar") else "cut edge"
    more = "nothing" + (" else" if name == "longitudinal weld" else "") + " is welded on where the member is stressed"
    text = f'fatigue: {more} (judged as {name}): detail = "{name}" says so; name the detail if something is'
    return DETAILS[name], (Assumption(part, text, more),)


def check_member_fatigue(
    part: str, section: Any, detail: str | None, stress: float, basis: Basis, *, drilled: bool = False
) -> Outcome:
    """The finding "fatigue" from the stress range at rated force, MPa."""
    chosen, assumptions = member_detail(part, section, detail, drilled=drilled)
    outcome = fatigue(part, [(chosen, stress)], basis)
    return outcome + Outcome(assumptions=() if basis.static else assumptions)
