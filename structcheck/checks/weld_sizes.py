"""What "weld size" compares: throat, effective length, and how intermittent runs are laid; each said by its name."""

import math
from collections.abc import Iterable
from dataclasses import replace

from structcheck.findings import Finding, judged, worst
from structcheck.standards.en1993_1_8 import welds

LEAST_THROAT = 3.0
"""EN 1993-1-8:2005 4.5.2(2), mm."""

THROAT = "throat: no less than 3 mm carries load"
LENGTH = "effective length: no less than 30 mm and 6 throats carries load"


def throat_size(part: str, a: float, called: str = "") -> Finding:
    """The throat against the least there is."""
    return judged(part, "weld size", "", LEAST_THROAT, a, "mm", "EN 1993-1-8:2005 4.5.2(2)", reason=called + THROAT)


def length_size(part: str, a: float, length: float, called: str = "") -> Finding:
    """An effective length in mm against the least that may carry load."""
    least, source = welds.least_effective_length(a), "EN 1993-1-8:2005 4.5.1(2)"
    return judged(part, "weld size", "", least, length, "mm", source, reason=called + LENGTH)


def worst_size(compared: Iterable[Finding]) -> Finding:
    """The worst of these, with what else was compared and how much of each is used."""
    every = list(compared)
    chosen = worst(every)
    if any(finding.verdict == "not checked" for finding in every):
        return chosen
    others: dict[str, Finding] = {}
    for finding in sorted(every, key=lambda one: one.utilisation or 0.0):
        others[_what(finding)] = finding
    del others[_what(chosen)]
    if not others:
        return chosen
    beside = ", ".join(f"{what} {_share(finding)}" for what, finding in others.items())
    traces = [finding.trace for finding in every if finding.trace]
    whole = traces and replace(traces[0], end=traces[-1].end)  # they follow one another
    return replace(chosen, reason=f"{chosen.reason} (beside it: {beside})", trace=whole or None)


def _share(finding: Finding) -> str:
    """Rounded up, as every use is shown."""
    return f"{math.ceil(100 * (finding.utilisation or 0.0) - 1e-9) / 100:.2f}"


def _what(finding: Finding) -> str:
    """ "throat" of "run 3: throat: no less than ..."."""
    said = finding.reason.split(": ")
    return said[-2] if len(said) > 1 else finding.reason
