"""`--find` on the command line, in text and in JSON."""

import json

import pytest

SPRING = ("spring", "--find", "spring", "--lifts", "25 kg", "--travel", "150 mm", "--space", "420 mm")
SELDOM = ("--presses-per-day", "4")
"""Ten thousand presses: a spring at rest."""
WELD = ("weld", "--find", "throat", "--length", "120 mm", "--runs", "2", "--steel", "S275", "--inspected")
BEAM = ("beam", "--find", "section", "--steel", "S275", "--span", "900 mm", "--load", "8 t", "--pieces", "2")
BOLTS = ("bolts", "--size", "M16", "--class", "8.8", "--find", "count", "--plate", "10 mm", "--steel", "S275")
PIN = ("pin", "--find", "diameter", "--steel", "S355", "--inner", "20 mm", "--outer", "12 mm", "--gap", "2 mm")


def test_the_answer_leads_and_its_whole_check_follows(run):
    """The spring of the orchard press, the next softer, then the table and the caution."""
    status, out, err = run(*SPRING, "--rod", "30 mm", "--rating", "8 t", *SELDOM)
    out = " ".join(out.split())
    assert (status, err) == (0, "")
    assert out.startswith("found: spring CS 6.0x42x38, count 2, wire 6 mm")
    assert "next softer, CS 5.5x40x38 (preload 647 N): spring return force: 745.2 against 647.4 N" in out
    assert "Return springs, 2 x CS 6.0x42x38: HOLDS" in out
    assert "qualified engineer" in out


def test_in_json_the_answer_stands_beside_the_result(run):
    """Values with their units, strict."""
    status, out, _ = run(*WELD, "--along", "100 kN", "--json")
    data = json.loads(out)
    assert status == 0
    assert data["found"]["throat"] == {"value": 4.0, "unit": "mm"}
    assert data["verdict"] == "holds"
    assert data["record"]


@pytest.mark.parametrize(
    ("words", "start"),
    [
        ((*BEAM, "--section", "UPN *"), "least so far: section UPN "),
        ((*BOLTS, "--shear", "150 kN", "--end", "45 mm", "--edge", "45 mm"), "least so far: rows "),
        ((*BOLTS, "--shear", "150 kN", "--end", "45 mm", "--edge", "45 mm", "--thread", "out"), "found: rows "),
        ((*PIN, "--pull", "4 t"), "least so far: diameter 22 mm; not judged: lug geometry (state --inner-end and"),
        ((*WELD, "--along", "40 kN"), "found: throat 3 mm"),
    ],
)
def test_every_unknown_is_answered(run, words, start):
    """The answer first; an incomplete verdict keeps its status 3."""
    status, out, _ = run(*words)
    assert " ".join(out.split()).startswith(start)
    assert status in (0, 3)
    assert ("the verdict stays incomplete" in out) == (status == 3)


def test_none_that_holds_is_said_and_fails(run):
    """Status 1 and the reason first."""
    status, out, _ = run(*WELD, "--along", "2000 kN")
    assert status == 1
    assert out.startswith("nothing found: no throat up to 15 mm holds: ")


def test_a_rod_that_no_spring_goes_over_fails(run):
    """Every spring of the list is kept out by a finding of its own, the fit with its numbers; no pass is read."""
    words = (*SPRING, "--rod", "50 mm", "--rating", "8 t")
    status, out, _ = run(*words)
    assert status == 1
    assert "NO SPRING OF THE STOCK LIST DOES, those tried: FAILS" in out and "HOLDS" not in out
    status, out, _ = run(*words, "--json")
    data = json.loads(out)
    assert (status, data["verdict"], data["found"]) == (1, "fails", None)
    assert {f["verdict"] for f in data["findings"]} == {"fails"}
    fit = next(f for f in data["findings"] if f["part"] == "CS 6.0x42x38")
    assert (fit["check"], fit["demand"]["value"], fit["capacity"]["value"]) == ("spring guide fit", 50.5, 36.0)


def test_bolts_without_edges_are_least_so_far(run):
    """The lead line names what was not judged and the options that would let it be."""
    _, out, _ = run(*BOLTS, "--shear", "6 t")
    lead = " ".join(out.split("next smaller")[0].split())
    assert lead.startswith("least so far: rows ") and "block tearing (state --end)" in lead
    assert "bolt spacing (state --end and --edge)" in lead and "--thread out" in lead


def test_a_pattern_beside_the_search_for_it_is_refused_by_name(run):
    """One message for what is stated."""
    status, out, err = run(*BOLTS, "--shear", "6 t", "--rows", "2", "--columns", "1")
    assert (status, out) == (2, "")
    assert err.startswith("--rows and --columns: are stated beside --find count, which is to find the pattern")


def test_a_stock_list_of_ones_own(run, tmp_path):
    """Read from the file named; a bad one is refused with its place."""
    mine = tmp_path / "mine.csv"
    mine.write_text("name,wire,mean,turns,ends,grade,coiling,free\nA,6,42,38,ground,SM,cold,515\n", encoding="utf-8")
    _, out, _ = run(*SPRING, "--held", "rod", "--stock", mine)
    assert out.startswith("found: spring A, count 2")
    mine.write_text("name,wire\nA,6\n", encoding="utf-8")
    status, out, err = run(*SPRING, "--stock", mine)
    assert (status, out) == (2, "")
    assert "column is missing" in err


def test_wrong_questions_are_refused_by_option(run):
    """Status 2; what belongs to a search only is no key of the part."""
    for words, said in (
        (("spring", "--find", "spring", "--travel", "150 mm"), "--lifts: is missing"),
        (("spring", "--travel", "150 mm", "--lifts", "25 kg"), "--travel: is only asked with --find spring"),
        (("bolts", "--find", "throat"), "invalid choice"),
        ((*BEAM, "--section", "XYZ *"), '--section: "XYZ *" fits no section'),
    ):
        status, out, err = run(*words)
        assert (status, out) == (2, "")
        assert said in err


def test_the_return_spring_holds_and_says_which_rods_fit_it(run):
    """EN 13906-1 as recalled; a rod stated is no assumption. At 50,000 presses it rests on its maker's word."""
    command = ("spring", "--wire", "6 mm", "--mean", "42 mm", "--active", "36", "--ends", "ground", "--grade", "SM")
    command += ("--free", "515 mm", "--fitted", "420 mm", "--pressed", "270 mm", "--count", "2", "--lifts", "25 kg")
    status, out, _ = run(*command, "--held", "rod", "--json")
    assert (status, json.loads(out)["verdict"]) == (3, "holds if")
    status, out, _ = run(*command, "--held", "rod", *SELDOM, "--json")
    data = json.loads(out)
    assert (status, data["verdict"]) == (0, "holds")
    assert any("a rod of 27 to 35.5 mm is taken" in one["text"] for one in data["assumptions"])
    status, out, _ = run(*command, "--rod", "35 mm", *SELDOM, "--json")
    data = json.loads(out)
    assert (status, data["verdict"]) == (0, "holds")
    units = {f["check"]: f["demand"]["unit"] for f in data["findings"]}
    assert units["spring return force"] == "kN"


def test_guides_of_two_columns_on_the_command_line(run):
    """A choice of whole numbers is read as one."""
    status, out, _ = run("guide", "--length", "120 mm", "--offset", "50 mm", "--columns", "2", "--spacing", "400 mm")
    assert status == 0
    assert "the 2 bushes are alike and bear evenly" in out
    _, out, _ = run(
        "guide", "--length", "120 mm", "--offset", "15 mm", "--post", "RD 30", "--steel", "S355", "--force", "8 t"
    )
    assert "guide post bending" in out
