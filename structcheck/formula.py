"""Formula functions: one text that is evaluated, shown and solved.

A formula is a plain function that reads like its clause, with units in its annotations and the clause in the
decorator. Called with numbers it only computes. While a `Working` is open each call is kept with its values, so
that what is shown later is what was computed.
"""

import inspect
import typing
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cached_property, lru_cache, update_wrapper
from typing import Any, TypeVar

from structcheck import maths
from structcheck.quantities import Unit


@dataclass(frozen=True, eq=False)
class Step:
    """One formula evaluated: what it was given, as it was given, and what came out, in base units."""

    formula: "Formula"
    args: tuple[Any, ...]
    kwargs: Mapping[str, Any]
    result: Any

    @cached_property
    def values(self) -> dict[str, Any]:
        """The value of each argument by its name, defaults included; bound only when somebody looks."""
        bound = self.formula.signature.bind(*self.args, **self.kwargs)
        bound.apply_defaults()
        return dict(bound.arguments)


@dataclass(frozen=True)
class Remark:
    """A branch taken or a value looked up, in words, with its clause."""

    text: str
    source: str = ""


@dataclass(eq=False)
class Working:
    """What was computed, in order; open it with `with Working() as working:`."""

    steps: list[Step | Remark] = field(default_factory=list)
    cut_at: int = 0

    def cut(self) -> "Trace":
        """The stretch since the last cut."""
        stretch = Trace(self, self.cut_at, len(self.steps))
        self.cut_at = stretch.end
        return stretch

    def __enter__(self) -> "Working":
        _open.append(self)
        return self

    def __exit__(self, *_: object) -> None:
        _open.remove(self)


@dataclass(frozen=True, eq=False)
class Trace:
    """A stretch of a working: what was computed for one finding, after the finding before it."""

    working: Working = field(repr=False)
    start: int
    end: int

    @property
    def steps(self) -> tuple[Step | Remark, ...]:
        """The steps of this stretch."""
        return tuple(self.working.steps[self.start : self.end])


_open: list[Working] = []


@contextmanager
def unrecorded() -> Iterator[None]:
    """Keep nothing: for the trials of a search, whose answer is then computed once more and kept."""
    kept = _open[:]
    _open.clear()
    try:
        yield
    finally:
        _open.extend(kept)


def recording() -> bool:
    """Whether a working is open: then nothing is taken from what was worked out before, so that it shows every step."""
    return bool(_open)


Answer = TypeVar("Answer")


def remembered(function: Callable[..., Answer]) -> Callable[..., Answer]:
    """Keep the answers of a function of things that do not change; a working that is open is shown every step."""
    known = lru_cache(maxsize=2048)(function)

    def answer(*args: Any) -> Answer:
        return function(*args) if _open else known(*args)

    return update_wrapper(answer, function)


def cut() -> Trace | None:
    """Cut the innermost open working; nothing where none is open."""
    return _open[-1].cut() if _open else None


def remark(text: str, source: str = "") -> None:
    """Record a branch or a look-up in the open workings; nothing where none is open."""
    for working in _open:
        working.steps.append(Remark(text, source))


class Formula:
    """A formula of a standard or handbook; call it like the function it wraps.

    symbol     what it gives, as the standard writes it ("F_b,Rd")
    source     publication, edition and clause
    trial      values, in the annotated units, on which its tests run
    empirical  its numbers hide units: it cannot be called with quantities
    """

    def __init__(
        self, function: Callable[..., Any], symbol: str, source: str, trial: Mapping[str, Any], empirical: bool
    ) -> None:
        self.function = function
        self.symbol = symbol
        self.source = source
        self.trial = trial
        self.empirical = empirical
        update_wrapper(self, function)

    def __call__(self, *args: Any, **kwargs: Any) -> Any:
        result = self.function(*args, **kwargs)
        if _open:
            step = Step(self, args, kwargs, result)
            for working in _open:
                working.steps.append(step)
        return result

    @cached_property
    def signature(self) -> inspect.Signature:
        """How it is called."""
        return inspect.signature(self.function)

    @cached_property
    def parameters(self) -> tuple[str, ...]:
        """Names of its arguments, in order."""
        return tuple(self.signature.parameters)

    @cached_property
    def units(self) -> dict[str, Unit]:
        """Unit of each argument, and of the result under "return"."""
        hints = typing.get_type_hints(self.function, include_extras=True)
        return {name: hint.__metadata__[0] for name, hint in hints.items()}

    def expression(self) -> Any:
        """The formula as an unevaluated sympy expression in symbols named after its arguments."""
        import sympy

        symbols = [sympy.Symbol(name) for name in self.parameters]
        with maths.symbolic(), sympy.evaluate(False):
            return self.function(*symbols)

    def __repr__(self) -> str:
        return f"<formula {self.symbol} of {self.source}>"


REGISTERED: list[Formula] = []
"""Every formula, in the order its module was imported; the tests walk it."""


def formula(
    symbol: str, source: str, *, trial: Mapping[str, Any], empirical: bool = False
) -> Callable[[Callable[..., Any]], Formula]:
    """Register a function as a formula; see `Formula` for the arguments."""

    def register(function: Callable[..., Any]) -> Formula:
        made = Formula(function, symbol, source, trial, empirical)
        REGISTERED.append(made)
        return made

    return register
