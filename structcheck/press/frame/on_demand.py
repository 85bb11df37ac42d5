"""Answers worked out when somebody asks for them: few joints ask for both the centre-line and the face of a corner."""

from collections.abc import Callable, Iterator, Mapping
from typing import Generic, TypeVar

_Answer = TypeVar("_Answer")


class OnDemand(Mapping[str, _Answer], Generic[_Answer]):
    """A mapping whose values are made at the first look.

    makers  name -> what makes the value
    """

    def __init__(self, makers: Mapping[str, Callable[[], _Answer]]) -> None:
        self._makers = dict(makers)
        self._made: dict[str, _Answer] = {}

    def __getitem__(self, name: str) -> _Answer:
        if name not in self._made:
            self._made[name] = self._makers[name]()
        return self._made[name]

    def __contains__(self, name: object) -> bool:
        return name in self._makers

    def __iter__(self) -> Iterator[str]:
        return iter(self._makers)

    def __len__(self) -> int:
        return len(self._makers)
