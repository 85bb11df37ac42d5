"""The smallest throat that holds, in half millimetres, with the next smaller one failing."""

from collections.abc import Sequence
from dataclasses import replace

from structcheck.checks.basis import Basis
from structcheck.checks.weld import Weld, WeldLoads, check_weld
from structcheck.checks.weld_room import most_throat
from structcheck.checks.weld_sizes import LEAST_THROAT
from structcheck.findings import Finding, Outcome, worst
from structcheck.record import record

STEP = 0.5
LARGEST = 15.0
"""A throat of more than this is laid in many passes and calls for another joint; ours, mm."""


def _most(part: Weld) -> float:
    """The thickest throat to try, mm: what the part takes where it is stated."""
    if part.thickness is None:
        return LARGEST
    alone = part.around or part.one_sided or part.runs == 1
    return min(LARGEST, most_throat(part.thickness, part.steel, part.inspected, "alone" if alone else "both"))


@record
class ThroatFound:
    """What was found.

    throat         mm; None where none holds
    outcome        of the throat found, or of the largest tried
    smaller        the next smaller throat, mm; None below the least throat
    smaller_fails  why that one does not do
    reason         why none was found
    """

    throat: float | None
    outcome: Outcome
    smaller: float | None = None
    smaller_fails: Finding | None = None
    reason: str = ""


def find_throat(part: Weld, loads: Sequence[WeldLoads], basis: Basis) -> ThroatFound:
    """The smallest throat of `part`, in half millimetres, by which nothing fails; its own throat or leg is put aside.

    A thicker throat also loses more of each run at its ends, so every size is tried in turn.
    """
    smaller: tuple[float, Finding] | None = None
    outcome = Outcome()
    most = _most(part)
    if most < LEAST_THROAT:
        outcome = check_weld(replace(part, throat=most, leg=None, leg_2=None), loads, basis)
        reason = f"the part of {part.thickness:g} mm takes no throat of {LEAST_THROAT:g} mm, the least there is"
        return ThroatFound(None, outcome, reason=reason)
    for step in range(int((most - LEAST_THROAT) / STEP + 1e-9) + 1):
        throat = LEAST_THROAT + STEP * step
        outcome = check_weld(replace(part, throat=throat, leg=None, leg_2=None), loads, basis)
        unknown = [f for f in outcome.findings if f.check == "weld throat" and f.verdict == "not checked"]
        if unknown:
            return ThroatFound(None, outcome, reason=unknown[0].reason)
        failing = [f for f in outcome.findings if f.verdict == "fails"]
        if not failing:
            return ThroatFound(throat, outcome, *(smaller or (None, None)))
        smaller = throat, worst(failing)
    tried = LEAST_THROAT + STEP * int((most - LEAST_THROAT) / STEP + 1e-9)
    whose = f", the most a part of {part.thickness:g} mm takes," if most < LARGEST else ""
    reason = f"no throat up to {tried:g} mm{whose} holds: {smaller[1].check} fails last; make the runs longer or more"
    return ThroatFound(None, outcome, smaller=smaller[0], smaller_fails=smaller[1], reason=reason)
