"""Values that do not change: dataclasses that are quick to define and quick to make.

`dataclass(frozen=True)` compiles six methods for each class and sets every field through `object.__setattr__`. Over the
classes of this package that is a fifth of a cold start and a twentieth of a warm check. A `record` compiles `__init__`
alone and shares the rest. It does not stop a writer; that nothing here writes to one is held by tests/test_layers.py.
What all share or a user is handed whole (steels, sections, a result) stays a frozen dataclass.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, fields
from operator import attrgetter
from typing import Any, dataclass_transform


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: Any = None, /, *, eq: bool = True, kw_only: bool = False) -> Any:
    """Make a class a record.

    eq       compared and hashed by its contents, as a frozen dataclass is; else by identity
    kw_only  its fields are given by name
    """
    if cls is None:
        return lambda cls: record(cls, eq=eq, kw_only=kw_only)
    own = set(vars(cls))
    cls = dataclass(eq=False, repr=False, kw_only=kw_only)(cls)
    if "__repr__" not in own:
        cls.__repr__ = _shown
    if eq and "__eq__" not in own:
        compared = [f for f in fields(cls) if f.compare]
        cls._compared = _contents(f.name for f in compared)
        cls._hashed = _contents(f.name for f in compared if f.hash is not False)
        cls.__eq__, cls.__hash__ = _equal, _hash
    return cls


def _contents(names: Iterable[str]) -> Any:
    """Reads these fields of a record."""
    wanted = tuple(names)
    return staticmethod(attrgetter(*wanted))


def _equal(self: Any, other: object) -> Any:
    return self._compared(self) == self._compared(other) if other.__class__ is self.__class__ else NotImplemented


def _hash(self: Any) -> int:
    return hash(self._hashed(self))


def _shown(self: Any) -> str:
    shown = ", ".join(f"{f.name}={getattr(self, f.name)!r}" for f in fields(self) if f.repr)
    return f"{type(self).__qualname__}({shown})"
