"""The guide question: binding, and what is refused."""

import pytest

from structcheck.checks.basis import Basis
from structcheck.checks.guide import Guide, check_guide
from structcheck.errors import InputError


def binding(**keys):
    return check_guide(Guide(name="bush", **keys), Basis()).findings[0]


def test_the_movable_bracket_jams_at_four_times_the_contact_spacing():
    """Beer and Johnston, movable bracket (read): contacts 6 in apart, mu 0.25, jams from x = 12 in."""
    jam = binding(length=6 * 25.4, offset=12 * 25.4, friction=0.25)
    assert jam.demand.value == pytest.approx(1.0)
    assert (jam.verdict, jam.reason) == ("fails", "jams, whatever the force")


@pytest.mark.parametrize(("mu", "length"), [(0.10, 30), (0.20, 60), (0.35, 105)])
def test_shortest_bush_at_150_mm(mu, length):
    """L = 2 mu e at e = 150 mm (derived): the jam itself, so twice the limit."""
    assert binding(length=length, offset=150, friction=mu).utilisation == pytest.approx(2.0)


def test_the_two_to_one_rule_has_no_margin_left():
    """Trade rule arm = 2 x bearing length (read) is the jam itself at mu = 0.25 (derived)."""
    assert binding(length=100, offset=200, friction=0.25).demand.value == pytest.approx(1.0)


def test_dry_friction_is_said_and_both_lines_are_printed():
    """0.35 is taken for the user and shown; greased stands beside it."""
    outcome = check_guide(Guide(name="bush", length=120, offset=15), Basis())
    assert outcome.findings[0].verdict == "holds"
    assert [a.text for a in outcome.assumptions] == ["friction of the guide 0.35: steel on steel, dry"]
    assert outcome.answers == ("bush: 2 mu e / L is 0.09 dry (friction 0.35), 0.04 greased (0.15); 1 is the jam",)


@pytest.mark.parametrize(("key", "value"), [("length", 0), ("offset", -5), ("friction", -0.1)])
def test_nonsense_is_refused(key, value):
    """An impossible number is named by its key."""
    keys = {"length": 120, "offset": 15, key: value}
    with pytest.raises(InputError) as caught:
        binding(**keys)
    assert [(p.key, p.part) for p in caught.value.problems] == [(key, 'guide "bush"')]
