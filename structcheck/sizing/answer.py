"""What a search found, with the whole check of it, and how it is told."""

import textwrap
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structcheck.findings import Amount, Finding, Result


@dataclass(frozen=True)
class Answer:
    """What was found.

    found    the keys of the answer as they would be written; None where nothing holds
    result   the whole check of the answer, or of the last one tried
    smaller  the next smaller one and what speaks against it, in words; empty where there is none
    others   what else was weighed, in words
    reason   why nothing was found
    """

    unknown: str
    found: Mapping[str, float | str | Amount] | None
    result: Result
    smaller: str = ""
    others: tuple[str, ...] = ()
    reason: str = ""

    @property
    def unjudged(self) -> tuple[Finding, ...]:
        """Checks that could not be done: the answer rests on the others."""
        return tuple(f for f in self.result.findings if f.verdict == "not checked")

    @property
    def lines(self) -> tuple[str, ...]:
        """The answer in words, the most wanted first."""
        said = [f"found: {words_of(self.found)}"] if self.found is not None else [f"nothing found: {self.reason}"]
        if self.smaller:
            said.append(self.smaller)
        said += self.others
        if self.found is not None and self.unjudged:
            said.append("it holds by every check that could be done; the verdict stays incomplete, for not judged are:")
            said += dict.fromkeys(f"- {f.check}: {f.reason}" for f in self.unjudged)
        return tuple(said)

    def as_text(self, width: int) -> str:
        """The lines, wrapped; what follows a line stands in."""
        wrapped = (textwrap.wrap(line, width, subsequent_indent="  ") for line in self.lines)
        return "\n".join(line for lines in wrapped for line in lines) + "\n"

    def as_dict(self) -> dict[str, Any]:
        """The JSON of the result, with what was found."""
        found = self.found and {k: v.as_dict() if isinstance(v, Amount) else v for k, v in self.found.items()}
        beside = {"asked for": self.unknown, "found": found, "smaller": self.smaller, "others": list(self.others)}
        return self.result.as_dict() | beside | {"none because": self.reason}


def words_of(found: Mapping[str, float | str | Amount]) -> str:
    said = (
        f"{v.value:g} {v.unit}" if isinstance(v, Amount) else f"{v:g}" if isinstance(v, float) else str(v)
        for v in found.values()
    )
    return ", ".join(f"{key} {value}" for key, value in zip(found, said, strict=True))
