"""What ties an output to its input: version, edition of the standards, hash of the input, date."""

import datetime
import re

from structcheck import __version__
from structcheck.errors import InputError, Problem
from structcheck.findings import Result
from structcheck.record import record


@record
class Record:
    """The record printed at the foot of every output.

    input_sha256  of the press file (as `sha256sum` gives it), or of the question asked
    date          ISO 8601; the only thing that differs between two runs on the same input
    """

    version: str
    edition: str
    input_sha256: str
    date: str

    def as_dict(self) -> dict[str, str]:
        """The fields of the JSON."""
        return {
            "version": self.version,
            "edition": self.edition,
            "input_sha256": self.input_sha256,
            "date": self.date,
        }

    def __str__(self) -> str:
        return f"structcheck {self.version}; {self.date}; input SHA-256 {self.input_sha256}; {self.edition}"


def record_of(result: Result, date: str | None = None, input_sha256: str = "") -> Record:
    """The record of a result, of today or of a date given as 2025-01-31. Raises InputError for any other text.

    input_sha256  where the result itself does not know it
    """
    edition = str(result.basis.get("edition", ""))
    return Record(__version__, edition, input_sha256 or result.input_sha256, read_date(date))


def read_date(given: str | None) -> str:
    """A date as stated, today's where none is."""
    if given is None:
        return datetime.date.today().isoformat()
    try:
        if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", given, re.ASCII):
            raise ValueError
        return datetime.date.fromisoformat(given).isoformat()
    except ValueError:
        shown = "".join(c if c.isprintable() else "?" for c in given)[:40]
        wanted, remedy = "year-month-day", "--date 2025-01-31"
        raise InputError(Problem("--date", f'"{shown}"', "is no date", wanted, remedy)) from None
