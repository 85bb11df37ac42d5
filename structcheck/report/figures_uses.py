"""The highest use of each part, as the drawings of a frame show it."""

from collections.abc import Mapping

from structcheck.findings import Result
from structcheck.report.table import use_of

Uses = Mapping[str, tuple[float | None, str]]


def uses_of(result: Result) -> Uses:
    """Part -> (its highest use, the same as it is printed)."""
    return {finding.part: (finding.utilisation, use_of(finding)) for finding in reversed(result.ranked)}
