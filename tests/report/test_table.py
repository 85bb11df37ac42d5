"""The table: the verdict first, numbers rounded the safe way, nothing lost on a narrow screen."""

from dataclasses import replace

from structcheck.findings import Amount, Assumption, NotNeeded, Outcome, Result, TimesOnYield, judged, not_checked
from structcheck.report.table import amount_text, as_text, use_of

FINE = judged("head", "bending", "ultimate", 50.04e6, 100e6, "kN m", "EN 1993-1-1:2005 (6.13)", reason="class 1")
OVER = judged("head", "shear", "ultimate", 100.1e3, 100e3, "kN", "EN 1993-1-1:2005 (6.18)")
OPEN = not_checked("head", "tube face", "no contact length stated")


def _text(*findings, width=120):
    outcome = Outcome(
        findings,
        (NotNeeded("head", "lateral torsional buckling", "a tube"),),
        (Assumption("head", "taken as cold formed"),),
        (TimesOnYield("head", 1.4999),),
    )
    return as_text(
        Result("Test press", {"load_factor": 1.5, "rated": {"value": 78.4532, "unit": "kN"}}, outcome), width
    )


def test_the_verdict_leads():
    """First line, in capitals."""
    assert _text(FINE).startswith("Test press: HOLDS: every listed check holds\n")
    assert _text(FINE, OVER).startswith("Test press: FAILS\n")
    assert _text(FINE, OPEN).startswith("Test press: INCOMPLETE: ")


def test_utilisation_is_rounded_up():
    """1.001 shows as 1.01, never as 1.00; 0.5004 as 0.51; exactly 0.5 as 0.50."""
    assert use_of(OVER) == "1.01"
    assert use_of(FINE) == "0.51"
    assert use_of(judged("a", "c", "", 1, 2, "", "s")) == "0.50"


def test_times_on_yield_is_rounded_down_and_cautioned_below_one_and_a_half():
    """1.4999 shows as 1.49."""
    text = _text(FINE)
    assert "1.49  head, at rated load; below 1.5" in text
    assert "ASME B30.1" in " ".join(text.split())


def test_every_list_is_there():
    """Basis, what was not checked, what governed, assumptions, what does not apply, the caution."""
    text = _text(FINE, OPEN)
    assert "Basis: load factor 1.5; rated 78.45 kN" in text
    assert "Not checked (not a pass)\n  - head, tube face: no contact length stated" in text
    assert "What governed\n  - head, bending: class 1" in text
    assert "Assumed for you\n  - head: taken as cold formed" in text
    assert "Does not apply\n  - head, lateral torsional buckling: a tube" in text
    assert text.rstrip().endswith("here it is good practice, not conformity.")


def test_a_narrow_screen_keeps_the_columns_and_numbers_the_sources():
    """No line is wider than asked."""
    text = _text(FINE, OVER, width=80)
    assert max(map(len, text.splitlines())) <= 80
    assert "[1] EN 1993-1-1:2005 (6.13)" in text


def test_a_few_newtons_are_shown_as_newtons():
    """0.745 kN reads as 745.2 N."""
    text = _text(judged("s", "spring return force", "open", 745.2, 940.5, "kN", "statics"))
    assert "745.2 N" in text


def test_what_was_not_checked_stands_before_the_table():
    """Right after the head lines; parts that lack the same are named together."""
    text = _text(FINE, OPEN, replace(OPEN, part="bed"))
    told = "Not checked (not a pass)\n  - head and bed, tube face: no contact length stated"
    assert text.index("times on yield") < text.index(told) < text.index("demand") < text.index("Basis: ")


def test_a_rule_of_detail_is_told_from_a_strength():
    """The highest use may be a size that no load moves; the next line is then another."""
    text = _text(FINE, judged("eye plate", "weld size", "", 3.0, 4.0, "mm", "EN 1993-1-8:2005 4.5.2"))
    assert "  highest use       0.75  eye plate, weld size (a rule of detail, not a strength)\n" in text
    assert "  first to go       head, bending 0.51\n" in text


def test_a_condition_names_its_parts():
    """Whoever confirms it must know where to look."""
    taken = [Assumption(part, "no weld", "nothing is welded on") for part in ("left upright", "right upright", "bed")]
    text = as_text(Result("Test press", {}, Outcome((FINE,), assumptions=tuple(taken))), 120)
    assert text.startswith("Test press: HOLDS IF nothing is welded on (left and right upright and bed)\n  to confirm  ")


def test_left_and_right_stand_in_one_row_only_where_every_value_is_the_same():
    """One row for shear, two for bending."""
    rows = [replace(OVER, part=f"{side} upright") for side in ("right", "left")]
    rows += [replace(FINE, part="left upright"), replace(FINE, part="right upright", demand=Amount(51e6, "kN m"))]
    text = _text(*rows)
    table = text[text.index("demand") : text.index("Basis: ")]
    assert table.count("left and right upright") == 1
    assert table.count("shear") == 1
    assert table.count("bending") == 2


def test_checks_of_a_part_with_the_same_values_share_a_row():
    """Torsion and axial force with bending come from one stress."""
    text = _text(OVER, replace(OVER, check="torsion"))
    assert "shear; torsion" in text
    assert text.count("100.1 kN") == 1


def test_a_statement_shows_no_numbers():
    """What keeps the jack's foot is said, not reckoned."""
    kept = judged("jack foot", "retention", "", 0.0, 1.0, "", "stated by the user", reason="a ring")
    row = next(line for line in _text(kept).splitlines() if line.startswith("jack foot"))
    assert row.split() == ["jack", "foot", "retention", "-", "-", "-", "holds", "stated", "by", "the", "user"]
    assert kept.as_dict()["utilisation"] == 0.0


def test_large_numbers_stand_in_groups_of_three():
    """No exponents, no commas, and no line broken within a number."""
    assert amount_text(Amount(2.32e9, "kN")) == "2 320 000 kN"
    basis = {"x" * width: 50000 for width in range(1, 60)}
    text = as_text(Result("Test press", basis, Outcome((FINE,))), 80)
    assert text.count("50 000") == len(basis)


def test_the_same_sentence_of_two_parts_stands_once():
    """What was taken for both beams."""
    taken = tuple(Assumption(part, "the 2 pieces share the force equally") for part in ("head", "bed"))
    text = as_text(Result("Test press", {}, Outcome((FINE,), assumptions=taken)), 120)
    assert "Assumed for you\n  - head and bed: the 2 pieces share the force equally" in text


def test_every_part_that_fails_is_in_the_headline():
    """Rules of detail too, which "first to go" leaves out; one of each part, the sides of one thing once."""
    sides = [judged(f"{side} upright", "bending", "ultimate", 3.0, 2.0, "kN", "s") for side in ("right", "left")]
    ram = judged("ram", "resultant", "off centre couple", 8.0, 4.0, "mm", "s")
    lines = _text(OVER, *sides, ram).splitlines()
    assert lines[1].startswith("  over the limit    ram")
    assert "ram, resultant 2.00; left and right upright, bending 1.50; head, shear" in lines[1]
    many = [judged(f"beam {n}", "bending", "ultimate", 10.0 + n, 1.0, "kN", "s") for n in range(7)]
    assert "; and 2 more checks" in " ".join(_text(*many).split())
    assert "over the limit" not in _text(FINE)


def test_a_ratio_of_the_clause_is_explained_where_one_is_shown():
    """What "by the clause" means stands under the table, and only there."""
    squares = judged("head", "axial and bending", "ultimate", 0.555, 1.0, "", "s", clause_ratio=0.28)
    text = " ".join(_text(squares).split())
    assert "0.56 (0.28 by the clause)" in text
    assert "by the clause: the ratio that the clause's own formula gives" in text
    assert "by the clause" not in _text(FINE)


def test_assumptions_stand_under_their_part():
    """A part with several has its name once; what it shares stands beside it."""
    taken = (Assumption("head", "a"), Assumption("jack", "b"), Assumption("bed", "a"), Assumption("head", "c"))
    taken += (Assumption("head", "d"),)
    text = as_text(Result("Test press", {}, Outcome((FINE,), assumptions=taken)), 120)
    assert "Assumed for you\n  - head and bed: a\n  - head\n      - c\n      - d\n  - jack: b\n" in text
