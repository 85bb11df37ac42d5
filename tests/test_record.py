"""Records behave as frozen dataclasses do, but for the freezing (the standard library's own as the reference)."""

from dataclasses import dataclass, field, replace

import pytest

from structcheck.record import record


def both(name="Thing"):
    """The same class twice: as a record and as a frozen dataclass."""

    def described():
        body = {
            "__annotations__": {"a": float, "b": tuple, "c": dict, "d": str},
            "b": (1, 2),
            "c": field(default_factory=dict, hash=False),
            "d": field(default="", compare=False, repr=False),
            "__module__": __name__,
            "__qualname__": name,
        }
        return type(name, (), body)

    return record(described()), dataclass(frozen=True)(described())


def test_compares_hashes_and_prints_as_a_frozen_dataclass():
    """By contents; what is not compared or not hashed does not count."""
    ours, standard = both()
    for one, other in (
        ((1.0,), (1.0,)),
        ((1.0, (3,)), (1.0, (4,))),
        ((1.0, (3,), {"x": 1}), (1.0, (3,), {"x": 2})),
        ((1.0, (3,), {}, "p"), (1.0, (3,), {}, "q")),
    ):
        assert (ours(*one) == ours(*other)) == (standard(*one) == standard(*other))
        assert hash(ours(*one)) == hash(standard(*one))
        assert repr(ours(*one)) == repr(standard(*one))
    assert ours(1.0) != standard(1.0)
    assert replace(ours(1.0), a=2.0) == ours(2.0)


def test_records_of_two_kinds_never_equal():
    """An answer kept for one must not serve the other."""

    @record
    class Other:
        a: float

    @record
    class Same:
        a: float

    assert Other(1.0) != Same(1.0)
    assert len({Other(1.0), Same(1.0)}) == 2


def test_by_identity_and_by_name():
    """As the arguments of the same names do."""

    @record(eq=False, kw_only=True)
    class Thing:
        a: float

    assert Thing(a=1.0) != Thing(a=1.0)
    with pytest.raises(TypeError):
        Thing(1.0)


def test_what_a_class_says_itself_is_kept():
    """Its own way of comparing and printing."""

    @record
    class Thing:
        a: float

        def __eq__(self, other):
            return True

        def __hash__(self):
            return 7

        def __repr__(self):
            return "a thing"

    assert (Thing(1.0) == Thing(2.0), hash(Thing(1.0)), repr(Thing(1.0))) == (True, 7, "a thing")
