"""Errors a user can meet, each with what was found, what is wanted and what to write.

    StructcheckError
    ├── InputError (also ValueError)     something the user wrote; exit status 2
    │   ├── QuantityError                a text that is not one number with one known unit
    │   └── UnknownName                  a section, steel, bolt or key nobody knows; offers the nearest
    ├── NotCovered                       the method does not reach this case: the check is "not checked"
    └── Mechanism (also ValueError)      a structure that moves without straining; names the free motion

An `InputError` carries every `Problem` found, so that a file is mended in one go.
"""

from collections.abc import Iterable
from dataclasses import replace

from structcheck.record import record


@record
class Problem:
    """One thing wrong with the input, kept as fields so that text and JSON say the same.

    key     the key, option or argument ("span", "--span")
    given   what the user wrote, as written
    fault   what is wrong with it ("has no unit")
    wanted  what would be right ("a length in mm, cm, m, in or ft")
    remedy  a line to write instead (`span = "900 mm"`), or several
    part    the part it belongs to (`beam "head"`), empty at the top
    file    the file, empty on the command line
    """

    key: str
    given: str
    fault: str
    wanted: str
    remedy: str = ""
    part: str = ""
    file: str = ""

    def within(self, *, file: str = "", part: str = "") -> "Problem":
        """The same problem with its place filled in where it has none."""
        return replace(self, file=self.file or file, part=self.part or part)

    def __str__(self) -> str:
        place = ", ".join(piece for piece in (self.file, self.part, self.key) if piece)
        found = " ".join(piece for piece in (self.given, self.fault) if piece)
        lines = [f"{place}: {found}" if place else found]
        if self.wanted:
            lines.append(f"  wanted: {self.wanted}")
        if self.remedy:
            lines.append(f"  try:    {self.remedy}".replace("\n", "\n          "))
        return "\n".join(lines)

    def as_dict(self) -> dict[str, str]:
        """The fields of the JSON contract, with the fault beside them."""
        return {
            "file": self.file,
            "part": self.part,
            "key": self.key,
            "given": self.given,
            "fault": self.fault,
            "wanted": self.wanted,
            "try": self.remedy,
        }


class StructcheckError(Exception):
    """Base of everything this package raises on purpose."""


class InputError(StructcheckError, ValueError):
    """The input cannot be used; `problems` holds every reason found, each once."""

    exit_status = 2

    def __init__(self, problems: Problem | Iterable[Problem]) -> None:
        told = (problems,) if isinstance(problems, Problem) else problems
        self.problems: tuple[Problem, ...] = tuple(dict.fromkeys(told))
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def within(self, *, file: str = "", part: str = "") -> "InputError":
        """The same error with the place of every problem filled in."""
        return type(self)(problem.within(file=file, part=part) for problem in self.problems)


class QuantityError(InputError):
    """A text that is not one number with one unit of the wanted kind."""


class UnknownName(InputError):
    """A name that is in none of the lists; the remedy offers the nearest."""


class NotCovered(StructcheckError):
    """A method does not reach the case asked; the check becomes `not checked` with this reason."""


class Mechanism(StructcheckError, ValueError):
    """The structure can move without straining; says which node moves and in which direction."""
