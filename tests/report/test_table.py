"""The table: the verdict first, numbers rounded the safe way, nothing lost on a narrow screen."""

from structcheck.findings import Assumption, NotNeeded, Outcome, Result, TimesOnYield, judged, not_checked
from structcheck.report.table import as_text, use_of

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
