"""Verdicts: unknown is never a pass, and the caution is on everything."""

import json
import math

import pytest

from structcheck.findings import (
    Assumption,
    NotNeeded,
    Outcome,
    Result,
    TimesOnYield,
    complete,
    interaction,
    judged,
    not_checked,
    worst,
    worst_case,
)

HOLDS = judged("head", "bending", "ultimate", 50e6, 100e6, "kN m", "EN 1993-1-1:2005 6.2.5")
FAILS = judged("head", "shear", "ultimate", 101e3, 100e3, "kN", "EN 1993-1-1:2005 6.2.6")
OPEN = not_checked("head", "web under load", "no contact length stated")


def _result(*findings, assumptions=()):
    return Result("Test press", {"load_factor": 1.5}, Outcome(findings, assumptions=assumptions))


@pytest.mark.parametrize(
    ("findings", "assumptions", "verdict", "status"),
    [
        ((HOLDS,), (), "holds", 0),
        ((HOLDS, FAILS), (), "fails", 1),
        ((HOLDS, OPEN), (), "incomplete", 3),
        ((HOLDS, OPEN, FAILS), (), "fails", 1),
        ((), (), "incomplete", 3),
        ((HOLDS,), (Assumption("head", "steel taken as S235", "f_y >= 235 MPa"),), "holds if", 3),
        ((HOLDS,), (Assumption("head", "hole by EN 1090-2"),), "holds", 0),
        ((HOLDS, OPEN), (Assumption("head", "steel taken as S235", "f_y >= 235 MPa"),), "incomplete", 3),
    ],
)
def test_the_verdict_is_the_worst_that_is_known_or_unknown(findings, assumptions, verdict, status):
    """fails before incomplete before holds if before holds; nothing checked is incomplete."""
    result = _result(*findings, assumptions=assumptions)
    assert (result.verdict, result.exit_status) == (verdict, status)


def test_one_is_a_pass_and_a_hair_more_is_not():
    """Compared unrounded."""
    assert judged("a", "c", "ultimate", 1.0, 1.0, "", "s").verdict == "holds"
    assert judged("a", "c", "ultimate", 1.0 + 1e-12, 1.0, "", "s").verdict == "fails"


@pytest.mark.parametrize(
    ("demand", "capacity"), [(1.0, 0.0), (1.0, -1.0), (math.inf, 1.0), (math.nan, 1.0), (0.0, 0.0)]
)
def test_what_is_not_finite_fails_with_a_reason(demand, capacity):
    """No capacity left, or no number at all, is never a pass."""
    finding = judged("a", "c", "ultimate", demand, capacity, "kN", "s")
    assert (finding.verdict, finding.utilisation, finding.capacity) == ("fails", None, None)
    assert finding.reason


def test_an_interaction_is_the_inverse_of_the_load_factor():
    """A part that bears twice its load is half used, whatever the clause's own ratio."""
    finding = interaction("a", "axial and bending", "ultimate", 2.0, "s", clause_ratio=0.25)
    assert (finding.utilisation, finding.clause_ratio, finding.demand.value) == (0.5, 0.25, 0.5)


def test_a_needed_check_that_was_not_done_is_not_checked():
    """Unless it cannot occur."""
    done = Outcome((HOLDS,), (NotNeeded("head", "lateral torsional buckling", "a tube"),))
    whole = complete(done, "head", ("bending", "shear", "lateral torsional buckling"), "no method here")
    assert [(f.check, f.verdict) for f in whole.findings] == [("bending", "holds"), ("shear", "not checked")]


def test_the_governing_finding_leads():
    """The highest utilisation, or one that is not finite."""
    assert _result(HOLDS, FAILS).governing is FAILS
    gone = judged("a", "c", "ultimate", 1.0, 0.0, "kN", "s")
    assert _result(HOLDS, FAILS, gone).governing is gone
    assert worst((HOLDS, FAILS)) is FAILS
    assert worst((HOLDS, OPEN)) is OPEN


def test_a_known_failure_is_told_whatever_else_is_not_checked():
    """And says what was not checked beside it."""
    found = worst((HOLDS, OPEN, FAILS))
    assert (found.verdict, found.utilisation) == ("fails", FAILS.utilisation)
    assert OPEN.reason in found.reason


def test_the_json_is_strict_and_carries_the_caution():
    """The contract's fields, null where there is no number."""
    result = Result(
        "T", {}, Outcome((OPEN, FAILS), times_on_yield=(TimesOnYield("head", 1.4), TimesOnYield("bed", 1.2)))
    )
    data = json.loads(json.dumps(result.as_dict(), allow_nan=False))
    assert data["times_on_yield"] == {"part": "bed", "value": 1.2}
    assert data["governing"] == {"part": "head", "check": "shear", "case": "ultimate", "utilisation": 1.01}
    first = data["findings"][0]
    assert (first["demand"], first["capacity"], first["utilisation"], first["verdict"]) == (
        None,
        None,
        None,
        "not checked",
    )
    assert data["findings"][1]["demand"] == {"value": 101.0, "unit": "kN"}
    assert "qualified engineer" in data["caution"]


def test_a_clause_ratio_that_is_not_finite_is_left_out():
    """Bolts so near each other that k_1 is below 0: --json ended in a traceback."""
    found = judged("p", "bolt bearing", "ultimate", 1.0, 0.0, "kN", "clause", clause_ratio=math.inf)
    assert (found.verdict, found.clause_ratio) == ("fails", None)
    json.dumps(Result("t", {}, Outcome((found,))).as_dict(), allow_nan=False)


def test_cases_that_cannot_use_anything_up_have_an_answer_too():
    """A member without axial force: a bound of 0 in every case left none to take."""
    none = judged("head", "axial", "ultimate", 0.0, 100e3, "kN", "EN 1993-1-1:2005 (6.6)")
    assert worst_case(lambda _: none, [1, 2], [0.0, 0.0]) == none
