"""`check FILE --watch`: check again on every save, and say what changed since the last time."""

import time
from collections.abc import Iterator
from pathlib import Path

from structcheck.errors import InputError, Problem
from structcheck.findings import Finding, Result
from structcheck.questions import check_press
from structcheck.report.table import as_text, use_of
from structcheck.shapes.section import Section

INTERVAL = 0.3
"""Seconds between two looks at the file."""


def watch(path: str, sections: tuple[Section, ...], *, looks: int | None = None) -> int:
    """Check the file, then again after every save, until interrupted; `looks` ends it earlier.

    Returns the exit status of the last answer.
    """
    if path == "-":
        wanted, remedy = "a file on disk", "structcheck check press.toml --watch"
        raise InputError(Problem("--watch", "", "cannot watch standard input", wanted, remedy))
    before: Result | None = None
    stamp: tuple[int, int] | None = None
    status = 0
    try:
        while looks is None or looks > 0:
            looks = None if looks is None else looks - 1
            found = _stamp(path)
            if found != stamp:
                stamp = found
                before, status = _again(path, sections, before)
            time.sleep(INTERVAL if looks != 0 else 0)
    except KeyboardInterrupt:
        print("\nstopped watching")
    return status


def _stamp(path: str) -> tuple[int, int]:
    try:
        state = Path(path).stat()
    except OSError:
        return (0, 0)
    return state.st_mtime_ns, state.st_size


def _again(path: str, sections: tuple[Section, ...], before: Result | None) -> tuple[Result | None, int]:
    """Check once and print; a file that cannot be read leaves what was known before."""
    print(f"== {time.strftime('%H:%M:%S')}  {path}")
    try:
        result = check_press(path, sections=sections)
    except InputError as error:
        print(error, flush=True)
        return before, error.exit_status
    if before is None:
        print(as_text(result), flush=True)
    else:
        print("\n".join(changes(before, result)), flush=True)
    return result, result.exit_status


def changes(before: Result, after: Result) -> Iterator[str]:
    """What is different, in a line each: the verdict first, then every finding that moved."""
    if before.verdict != after.verdict:
        yield f"{before.verdict.upper()} -> {after.verdict.upper()}"
    else:
        yield f"{after.verdict.upper()}, as before"
    old = {(f.part, f.check): f for f in before.findings}
    new = {(f.part, f.check): f for f in after.findings}
    for key, finding in new.items():
        was = old.get(key)
        if was is None:
            yield f"  new    {_line(finding)}"
        elif _line(was) != _line(finding):
            yield f"  was    {_line(was)}"
            yield f"  now    {_line(finding)}"
    for key, finding in old.items():
        if key not in new:
            yield f"  gone   {_line(finding)}"
    if [_line(f) for f in before.findings] == [_line(f) for f in after.findings]:
        yield "  nothing changed"


def _line(finding: Finding) -> str:
    case = f" ({finding.case})" if finding.case else ""
    return f"{use_of(finding):>5} {finding.verdict:<11} {finding.part}, {finding.check}{case}"
