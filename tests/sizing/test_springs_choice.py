"""Choosing a return spring from a stock list and from wire sizes."""

import pytest

from structcheck.checks.basis import Basis
from structcheck.checks.spring import check_spring
from structcheck.errors import InputError
from structcheck.findings import Result
from structcheck.sizing.springs import (
    Wanted,
    choose_spring,
    explain,
    from_stock,
    from_wire_sizes,
    read_stock,
)

SELDOM = Basis(presses=9_000)
# Example A of the invented presses: 25 kg, 150 mm of stroke, 420 mm of room, rods of 30 mm, a jack of 8 t.
ORCHARD = Wanted(lifts=25, travel=150, space=420, count=2, rod=30, rating=78_453.0)


def test_the_orchard_press_gets_a_spring_that_returns_its_platen():
    """The softest that does is chosen, and the next softer fails at the top of the stroke, by the numbers."""
    choice = choose_spring(ORCHARD, from_stock(ORCHARD), SELDOM)
    chosen = choice.softest
    assert chosen.spring.name == "CS 6.0x42x38"
    assert chosen.preload == pytest.approx(940.5, abs=0.05)
    softer = choice.next_softer(chosen)
    assert softer.spring.name == "CS 5.5x40x38"
    assert softer.reasons == ("spring return force: 745.2 against 647.4 N",)


def test_every_spring_offered_holds_and_every_other_says_why():
    """The same checks as the question asks; nothing falls out without a reason."""
    choice = choose_spring(ORCHARD, from_stock(ORCHARD), SELDOM)
    assert len(choice.best) == 2
    for trial in choice.best:
        assert Result("", {}, check_spring(trial.spring, SELDOM)).verdict == "holds"
    assert all(trial.reasons for trial in choice.rejected)
    reasons = {trial.spring.name: trial.reasons for trial in choice.rejected}
    assert reasons["CS 6.5x45x36"] == ("spring clearance before solid: 37.99 against 36 mm",)
    assert reasons["CS 3.0x24x32"][0] == "inside 21 mm does not go over the rod of 30 mm"
    assert reasons["CS 5.0x40x10"] == ("fitted 420 mm is longer than the free spring",)


def test_the_choice_is_told_in_lines():
    """The best with what they have in hand, then what the nearest lack."""
    lines = explain(choose_spring(ORCHARD, from_stock(ORCHARD), SELDOM))
    assert lines[0] == "CS 6.0x42x38: preload 941 N, nearest its limit at 0.90"
    assert any(line.startswith("CS 6.5x45x36 falls out: spring clearance before solid") for line in lines)
    hopeless = Wanted(lifts=2500, travel=150, space=420, count=2)
    assert explain(choose_spring(hopeless, from_stock(hopeless), SELDOM))[0] == "no spring does:"


def test_a_spring_that_stands_free_is_not_offered_where_it_bows():
    """Without rod or tube every long spring of the list buckles."""
    free = Wanted(lifts=25, travel=150, space=420, count=2)
    choice = choose_spring(free, from_stock(free), SELDOM)
    assert choice.best == ()
    assert any("spring buckling" in reason for trial in choice.rejected for reason in trial.reasons)


def test_springs_made_from_wire_sizes_hold_too():
    """Each offered one passes the question, with the builder's margin at the top of the stroke."""
    choice = choose_spring(ORCHARD, from_wire_sizes(ORCHARD), SELDOM)
    assert len(choice.best) == 5
    for trial in choice.best:
        assert Result("", {}, trial.outcome).verdict == "holds"
        assert trial.preload >= 1.25 * 745.16


def test_hard_used_springs_are_judged_for_fatigue():
    """At 50,000 presses every one offered bears them."""
    often = Basis(presses=50_000)
    for trial in choose_spring(ORCHARD, from_wire_sizes(ORCHARD), often).best:
        checks = {f.check for f in trial.outcome.findings}
        assert "fatigue" in checks


def test_a_tube_leaves_room_for_the_growing_coil():
    """48 mm outside grows by 0.3 mm; 1 mm of play more is asked."""
    tube = Wanted(lifts=25, travel=150, space=420, count=2, tube=49)
    reasons = {t.spring.name: t.reasons for t in choose_spring(tube, from_stock(tube), SELDOM).rejected}
    assert reasons["CS 6.0x42x38"][0] == "outside 48.29 mm when pressed does not go into the tube of 49 mm"


@pytest.mark.parametrize(
    ("changes", "key"), [({"travel": 0}, "--travel"), ({"space": 100}, "--space"), ({"lifts": -1}, "lifts")]
)
def test_an_impossible_place_is_refused(changes, key):
    """By the option's name."""
    wanted = Wanted(**({"lifts": 25, "travel": 150, "space": 420} | changes))
    with pytest.raises(InputError) as caught:
        choose_spring(wanted, [], SELDOM)
    assert key in {p.key for p in caught.value.problems}


def test_a_users_own_list_is_read_and_every_bad_cell_named(tmp_path):
    """Columns, numbers, words and wire classes."""
    good = tmp_path / "mine.csv"
    good.write_text("name,wire,mean,turns,ends,grade,coiling,free\nA,6,42,38,ground,SM,cold,515\n", encoding="utf-8")
    assert choose_spring(ORCHARD, from_stock(ORCHARD, good), SELDOM).best[0].spring.name == "A"
    bad = tmp_path / "bad.csv"
    bad.write_text("name,wire,mean,turns,ends,grade,coiling,free\n,six,42,38,flat,XX,cold,-1\n", encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_stock(bad)
    assert {p.key for p in caught.value.problems} == {"name", "wire", "ends", "grade", "free"}
    with pytest.raises(InputError, match="column is missing"):
        odd = tmp_path / "odd.csv"
        odd.write_text("name,wire\nA,6\n", encoding="utf-8")
        read_stock(odd)
    with pytest.raises(InputError, match="cannot be read"):
        read_stock(tmp_path / "none.csv")


def test_the_stock_that_comes_with_the_package_is_marked_invented():
    """It is an example, no supplier's list."""
    from structcheck.shapes.rows import data_folder

    rows = (data_folder() / "springs_stock.csv").read_text(encoding="utf-8").splitlines()[1:]
    assert rows and all(row.endswith(",invented") for row in rows)
