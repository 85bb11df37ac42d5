"""Wrong input gets one clear message for each problem, status 2, and never a traceback."""

import json

import pytest

GOOD = 'schema = 1\n[jack]\nrating = "8 t"\n[[beam]]\nname = "head"\nsection = "UPN 120"\nsteel = "S235"\n'
BEAM = GOOD + 'span = "700 mm"\nload = 1.0\n'
SPRING = (
    'schema = 1\n[jack]\nrating = "8 t"\n[[spring]]\nname = "s"\nwire = "6 mm"\nmean = "42 mm"\nactive = 36\n'
    'ends = "ground"\ngrade = "SM"\nfree = "515 mm"\nlifts = "25 kg"\n'
)

FILES = [
    pytest.param("", "the file is empty", id="empty"),
    pytest.param("a = [", "is not TOML", id="not TOML"),
    pytest.param("schema = 1\n\n\n[jack\n", "line 4", id="syntax error with its line"),
    pytest.param(GOOD + 'span = "900"\nload = 1.0\n', 'beam "head", span: "900" has no unit', id="missing unit"),
    pytest.param(GOOD + "span = 900\nload = 1.0\n", 'try:    span = "900 mm"', id="bare number"),
    pytest.param(GOOD + 'span = "-700 mm"\nload = 1.0\n', "must be above zero", id="negative span"),
    pytest.param(GOOD + 'span = "700 mm"\nload = true\n', "load: true is not a quantity", id="true for a number"),
    pytest.param(GOOD + 'span = "700 mm"\nload = nan\n', "load: nan is not", id="nan"),
    pytest.param(GOOD + 'span = "700 mm"\nload = inf\n', "load: inf is not", id="infinity"),
    pytest.param(GOOD + 'span = "nan mm"\nload = 1.0\n', "is not one number with one unit", id="nan in a text"),
    pytest.param(GOOD + 'span = "700 mm"\n', 'beam "head", load: is missing', id="no load"),
    pytest.param(BEAM + "piecs = 2\n", "piecs: is not a key here", id="wrong key"),
    pytest.param(BEAM + "piecs = 2\n", "try:    pieces", id="wrong key, nearest"),
    pytest.param(BEAM + "pieces = 2.5\n", "2.5 is not a whole number", id="half a piece"),
    pytest.param(BEAM + "pieces = true\n", "true is not a whole number", id="true for a count"),
    pytest.param(
        BEAM + 'supports = "loose"\n', '"simple" or "fixed" or "propped" or "cantilever"', id="unknown choice"
    ),
    pytest.param(BEAM + 'at = "800 mm"\n', "at", id="load beyond the span"),
    pytest.param(BEAM.replace("UPN 120", "UPN 125"), "UPN 120", id="unknown section, nearest"),
    pytest.param(BEAM.replace("S235", "S236"), 'steel = "S235"', id="unknown steel, nearest"),
    pytest.param(BEAM.replace('"8 t"', '"8 ton"'), "8 short_ton is 71.2 kN", id="three tons"),
    pytest.param(BEAM.replace('"8 t"', "8"), "has no unit", id="rating without unit"),
    pytest.param(BEAM.replace('"8 t"', '"8000"'), 'try:    rating = "8000 kg" or rating = "8000 N"', id="kg, surely"),
    pytest.param(BEAM.replace("schema = 1", "schema = 2"), "schema: 2 is not one of the choices", id="other schema"),
    pytest.param(BEAM.replace("[jack]", "[jak]"), "jak: is not a key here", id="wrong table"),
    pytest.param(BEAM + BEAM[BEAM.index("[[beam]]") :], "is already the name of a beam", id="repeated name"),
    pytest.param('schema = 1\n[jack]\nrating = "8 t"\n', "has no part to check", id="nothing to check"),
    pytest.param(SPRING + 'fitted = "420 mm"\npressed = "200 mm"\n', "solid", id="spring pressed below solid"),
    pytest.param(SPRING + 'fitted = "530 mm"\npressed = "270 mm"\n', "fitted", id="spring fitted longer than free"),
    pytest.param(
        BEAM + "pieces = 2\npieces = 3\n", "line 11: `pieces = 3` is written twice, first in line 10", id="a key twice"
    ),
    pytest.param(
        BEAM + "pieces = 2\npieces = 3", "line 11: `pieces = 3` is written twice", id="twice, in the last line"
    ),
    pytest.param(BEAM + '[jack]\nbase = "1 m"\n', "`[jack]` is written twice, first in line 2", id="a table twice"),
    pytest.param(BEAM.replace("[[beam]]", "[beam]") + "[beam]\n", "try:    [[beam]]", id="several in single brackets"),
    pytest.param(BEAM + "at = 350 mm\n", 'try:    at = "350 mm"', id="no quotes"),
    pytest.param(BEAM + "at = “350 mm”\n", 'try:    at = "350 mm"', id="curly quotes"),
    pytest.param(BEAM + 'at: "350 mm"\n', 'try:    at = "350 mm"', id="a colon"),
    pytest.param(BEAM + "turned = True\n", "try:    turned = true", id="a capital"),
    pytest.param(BEAM + 'spann = "800 mm"\n', 'try:    span = "800 mm"', id="wrong key, with its value"),
    pytest.param(BEAM.replace("[[beam]]", "[[beem]]"), "try:    [[beam]]", id="wrong table, in its brackets"),
    pytest.param(BEAM.replace('name = "head"\n', ""), 'try:    name = "beam"', id="no name"),
    pytest.param(BEAM.replace("S235", "8.8"), '"8.8" is the class of a bolt, not a steel', id="class for a steel"),
    pytest.param(
        BEAM.replace("[[beam]]", 'base = "110 x 90 mm"\n[[beam]]'),
        '"110 x 90 mm" is several numbers, where one is wanted',
        id="two sizes for one",
    ),
    pytest.param(
        BEAM.replace("[[beam]]", 'base = "110 mm x 90 mm"\n[[beam]]'),
        'try:    base = "110 mm" or base = "90 mm"',
        id="two sizes for one, each",
    ),
    pytest.param("x = " + "[" * 5000, "nests too deeply", id="nested without end"),
]


@pytest.mark.parametrize(("text", "words"), FILES)
def test_a_wrong_file_is_refused_in_words(text, words, run, tmp_path):
    """Status 2, the message on standard error, nothing on standard output."""
    file = tmp_path / "press.toml"
    file.write_text(text, encoding="utf-8")
    status, out, err = run("check", file)
    assert (status, out) == (2, "")
    assert words in err
    assert "Traceback" not in err


def test_every_problem_of_a_file_is_told_at_once(run, tmp_path):
    """Not one a run."""
    file = tmp_path / "press.toml"
    text = GOOD.replace("UPN 120", "UPN 121").replace("S235", "S1") + 'span = "700"\nload = 1.0\ncolour = "red"\n'
    file.write_text(text, encoding="utf-8")
    _, _, err = run("check", file)
    for key in ("section", "steel", "span", "colour"):
        assert f'beam "head", {key}:' in err


def test_in_json_the_problems_are_fields(run, tmp_path):
    """The contract: file, part, key, given, wanted, try; and the caution."""
    file = tmp_path / "press.toml"
    file.write_text(GOOD + 'span = "900"\nload = 1.0\n', encoding="utf-8")
    status, out, err = run("check", file, "--json")
    data = json.loads(out)
    assert status == 2
    assert err
    assert data["errors"][0] == {
        "file": str(file),
        "part": 'beam "head"',
        "key": "span",
        "given": '"900"',
        "fault": "has no unit",
        "wanted": "a length in mm, cm, m, in or ft",
        "try": 'span = "900 mm"',
    }
    assert "qualified engineer" in data["caution"]


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda path: path / "nowhere.toml", "there is no such file"),
        (lambda path: path, "is a folder"),
    ],
)
def test_a_path_that_is_no_file_is_refused(make, words, run, tmp_path):
    """A missing file and a folder."""
    status, _, err = run("check", make(tmp_path))
    assert status == 2
    assert words in err


def test_noise_is_refused(run, tmp_path):
    """10 MB of bytes, and bytes that are no text."""
    file = tmp_path / "noise.toml"
    file.write_bytes(bytes(range(256)) * 40_000)
    assert run("check", file)[0] == 2
    file.write_bytes(b"\xff\xfe\x00noise")
    status, _, err = run("check", file)
    assert status == 2
    assert "is not text in UTF-8" in err


def test_standard_input_is_a_file_too(process):
    """`structcheck check -`."""
    status, _, err = process("check", "-", stdin=b"")
    assert status == 2
    assert err.startswith("standard input: the file is empty")


OPTIONS = [
    (("beam", "--section", "UPN 120", "--steel", "S235", "--span", "700", "--load", "8 t"), '--span "700 mm"'),
    (("beam", "--section", "UPN 120", "--steel", "S235", "--load", "8 t"), "--span: is missing"),
    (("beam", "--section", "UPN 120", "--steel", "S235", "--span", "700 mm"), "--load: is missing"),
    (("beam", "--section", "UPN 120", "--steel", "S235", "--span", "700 mm", "--load", "8"), "--load"),
    (("beam", "--sektion", "UPN 120"), "--sektion"),
    (
        ("beam", "--section", "UPN 120", "--steel", "S235", "--span", "700 mm", "--load", "8 t", "--pieces", "x"),
        "--pieces",
    ),
    (
        ("bolts", "--size", "M17", "--class", "8.8", "--rows", "1", "--columns", "1", "--plate", "10 mm"),
        'try:    --size "M16"',
    ),
    (("weld", "--length", "120 mm", "--steel", "S275", "--along", "40 kN"), "--throat"),
    (("guide", "--length", "100mm", "--offset", "-10mm"), '--offset: "-10mm" must be zero or more'),
    (("guide", "--length", "100mm", "--offset", "-.5mm"), '--offset: "-.5mm" must be zero or more'),
    (("sections", "RHS 99999*"), "fits no section"),
    (("nonsense",), "tighten\n"),
    (("chek", "press.toml"), "try:    structcheck check\n"),
    (("press.toml",), "try:    structcheck check press.toml\n"),
    (("beam", "--spann", "900 mm"), "try:    --span\n"),
]


@pytest.mark.parametrize(
    ("words", "start"),
    [
        (("rated", "press.toml", "--workings"), "structcheck rated: unrecognized arguments: --workings\n"),
        (("beam", "--sektion", "UPN 120"), "structcheck beam: unrecognized arguments: --sektion UPN 120\n"),
        (("check",), "structcheck check: the following arguments are required: FILE\n"),
        (("nonsense",), 'structcheck: "nonsense" is no command\n'),
    ],
)
def test_a_wrong_command_line_names_its_command(words, start, run):
    """The message begins with what was called, not with a bare colon."""
    status, _, err = run(*words)
    assert status == 2
    assert err.startswith(start)


@pytest.mark.parametrize(("words", "told"), OPTIONS)
def test_a_wrong_option_is_refused_in_words(words, told, run):
    """The option is named as the user typed it."""
    status, out, err = run(*words)
    assert (status, out) == (2, "")
    assert told in err
    assert "Traceback" not in err
