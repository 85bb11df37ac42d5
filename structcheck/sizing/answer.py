"""What a search found, with the whole check of it, and how it is told."""

import re
import textwrap
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from structcheck.findings import Amount, Finding, Result


@dataclass(frozen=True)
class Answer:
    """What was found. Where nothing is, the result never holds: a search that gave no reason to fail is the reason.

    found    the keys of the answer as they would be written; None where nothing holds
    result   the whole check of the answer, or of the last one tried
    smaller  the next smaller one and what speaks against it, in words; empty where there is none
    others   what else was weighed, in words
    reason   why nothing was found
    spell    how the one who asks writes a key
    """

    unknown: str
    found: Mapping[str, float | str | Amount] | None
    result: Result
    smaller: str = ""
    others: tuple[str, ...] = ()
    reason: str = ""
    spell: Callable[[str], str] = str

    def __post_init__(self) -> None:
        if self.found is None and all(f.verdict == "holds" for f in self.result.findings):
            object.__setattr__(self, "result", _failed(self.result, self.unknown, self.reason))

    @property
    def unjudged(self) -> tuple[Finding, ...]:
        """Checks that could not be done: the answer rests on the others."""
        return tuple(f for f in self.result.findings if f.verdict == "not checked")

    @property
    def _lead(self) -> str:
        """The first line; with checks left undone it does not read as a whole answer."""
        if self.found is None:
            return f"nothing found: {self.reason}"
        if not self.unjudged:
            return f"found: {words_of(self.found)}"
        left = ", ".join(dict.fromkeys(f"{f.check}{self._to_state(f.reason)}" for f in self.unjudged))
        return f"least so far: {words_of(self.found)}; not judged: {left}"

    def _to_state(self, reason: str) -> str:
        """The keys a reason asks for, as the one who asks writes them."""
        asked = [(one or two or three, value) for one, two, value, three in _KEY_OF_REASON.findall(reason)]
        said = dict.fromkeys(f"{self.spell(key)} {value}".strip() for key, value in asked)
        return f" (state {' and '.join(said)})" if said else ""

    @property
    def lines(self) -> tuple[str, ...]:
        """The answer in words, the most wanted first."""
        said = [self._lead]
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


_KEY_OF_REASON = re.compile(r'`(\w+)`|\b(\w+) = "(\w+)"|\bstate (\w+)')
"""How the reason of a check that could not be done names what it lacks."""


def _failed(result: Result, unknown: str, reason: str) -> Result:
    """The result with the failure of the search itself as a finding."""
    why = reason or f"no {unknown} holds"
    none = Finding(unknown, "search", "", None, None, None, "fails", "the search among what is listed", why)
    return replace(result, outcome=replace(result.outcome, findings=(*result.findings, none)))


def words_of(found: Mapping[str, float | str | Amount]) -> str:
    said = (
        f"{v.value:g} {v.unit}" if isinstance(v, Amount) else f"{v:g}" if isinstance(v, float) else str(v)
        for v in found.values()
    )
    return ", ".join(f"{key} {value}" for key, value in zip(found, said, strict=True))
