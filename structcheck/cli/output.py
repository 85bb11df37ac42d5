"""What the commands share: printing a result, reading a user's own sizes."""

from structcheck.findings import Result
from structcheck.report.as_json import result_json
from structcheck.report.table import as_text
from structcheck.shapes.rows import read_csv
from structcheck.shapes.section import Section


def show(result: Result, *, as_json: bool) -> int:
    """Print the result; returns its exit status."""
    print(result_json(result) if as_json else as_text(result), end="\n" if as_json else "")
    return result.exit_status


def own_sections(path: str | None) -> tuple[Section, ...]:
    """The rows of the user's own CSV, none where no file is named."""
    return tuple(read_csv(path)) if path else ()
