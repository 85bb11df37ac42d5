"""A spring of unknown origin, from readings on a bench: its rate, and whether the readings can be trusted."""

from collections.abc import Sequence

from structcheck.analysis.springs import BenchFit, fit_readings
from structcheck.errors import InputError, Problem
from structcheck.findings import Finding, Outcome, judged, not_checked
from structcheck.record import record

FREE_LENGTH_AGREES = 3.0
"""mm within which the line should meet the measured free length, else the readings are off (bench practice)."""

SET_ALLOWED = 0.01
"""Share of the free length a spring may lose in the test before it has taken a set (bench practice)."""

STRAIGHT = 0.15
"""Change of the rate over the readings used, above which they are not one straight line; ours."""

FEW = 5
"""Readings a bench test should have."""

NEEDED = ("bench free length", "spring set", "bench straightness")


@record(kw_only=True)
class BenchTest:
    """Readings of one spring between the plates of a scale or press; mm and N.

    lengths, forces  in step, in any order
    free             measured before the test, loose
    after            measured after it, loose
    """

    name: str
    lengths: Sequence[float]
    forces: Sequence[float]
    free: float | None = None
    after: float | None = None


def measure(test: BenchTest) -> tuple[BenchFit, Outcome]:
    """The line through the readings, and what speaks for or against them. Raises InputError on useless readings."""
    part = f'bench "{test.name}"'
    if test.after is not None and test.free is not None and test.after > test.free * (1 + SET_ALLOWED):
        wanted = "the free length before and after the test, the second no longer"
        raise InputError(Problem("after", f"{test.after:g} mm", "is longer than before", wanted, part=part))
    try:
        fit = fit_readings(test.lengths, test.forces)
    except InputError as error:
        raise error.within(part=part) from None
    findings = (_free_length(test, fit), _set(test), _straightness(test, fit))
    return fit, Outcome(findings, answers=_answers(test, fit), advice=_advice(test, fit))


def _free_length(test: BenchTest, fit: BenchFit) -> Finding:
    check = "bench free length"
    if test.free is None:
        return not_checked(test.name, check, "the free length was not measured")
    off = abs(fit.free - test.free)
    reason = f"the line reaches no load at {fit.free:.1f} mm, measured {test.free:g} mm"
    return judged(test.name, check, "bench", off, FREE_LENGTH_AGREES, "mm", "bench practice", reason=reason)


def _set(test: BenchTest) -> Finding:
    check = "spring set"
    if test.free is None or test.after is None:
        return not_checked(test.name, check, "the free length was not measured before and after")
    lost = max(0.0, test.free - test.after)
    return judged(test.name, check, "bench", lost, SET_ALLOWED * test.free, "mm", "bench practice: 1 % of the length")


def _straightness(test: BenchTest, fit: BenchFit) -> Finding:
    check, source = "bench straightness", "change of the rate over the readings used; limit 15 %, ours"
    reason = "a progressive winding has no one rate: take readings over the travel really used"
    return judged(test.name, check, "bench", fit.drift, STRAIGHT, "", source, reason=reason)


def _answers(test: BenchTest, fit: BenchFit) -> tuple[str, ...]:
    said = [
        f"rate {fit.rate:.4g} N/mm, give or take {fit.rate_margin:.2g} (95 %), from {fit.used} readings",
        f"free length by the line {fit.free:.1f} mm",
    ]
    for left in fit.left_out:
        place = f"{test.lengths[left.index]:g} mm, {test.forces[left.index]:.4g} N"
        said.append(f"reading {left.index + 1} ({place}) left out: {left.reason}")
    return tuple(f"{test.name}: {text}" for text in said)


def _advice(test: BenchTest, fit: BenchFit) -> tuple[str, ...]:
    if fit.used >= FEW:
        return ()
    return (f"{test.name}: {fit.used} readings on the line are few; take five or more over the travel really used",)
