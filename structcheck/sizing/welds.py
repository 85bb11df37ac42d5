"""The smallest throat that holds, in half millimetres, with the next smaller one failing."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from structcheck.checks.basis import Basis
from structcheck.checks.weld import LEAST_THROAT, Weld, WeldLoads, check_weld
from structcheck.findings import Finding, Outcome, worst

STEP = 0.5
LARGEST = 15.0
"""A throat of more than this is laid in many passes and calls for another joint; ours, mm."""


@dataclass(frozen=True)
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
    for step in range(round((LARGEST - LEAST_THROAT) / STEP) + 1):
        throat = LEAST_THROAT + STEP * step
        outcome = check_weld(replace(part, throat=throat, leg=None, leg_2=None), loads, basis)
        unknown = [f for f in outcome.findings if f.check == "weld throat" and f.verdict == "not checked"]
        if unknown:
            return ThroatFound(None, outcome, reason=unknown[0].reason)
        failing = [f for f in outcome.findings if f.verdict == "fails"]
        if not failing:
            return ThroatFound(throat, outcome, *(smaller or (None, None)))
        smaller = throat, worst(failing)
    reason = f"no throat up to {LARGEST:g} mm holds: {smaller[1].check} fails last; make the runs longer or more"
    return ThroatFound(None, outcome, smaller=smaller[0], smaller_fails=smaller[1], reason=reason)
