"""The page, as text: what it says is what was checked."""

import html
import json
import re
from pathlib import Path

import pytest

from structcheck.report.page import page
from structcheck.report.prose import prose
from structcheck.report.table import use_of
from tests.report.conftest import EXAMPLES
from tests.report.formula_readers import read_mathml

BASE = {"kN": 1e3, "kN m": 1e6}
SMALLEST = (
    'schema = 1\ntitle = {title}\n[jack]\nrating = "4 t"\n[use]\nstatic = true\n[[weld]]\nname = {name}\n'
    'throat = "4 mm"\nlength = "90 mm"\nruns = 2\nsteel = "S275"\nalong = 1.0\ninspected = true\n'
)
each_example = pytest.mark.parametrize("name", [path.stem for path in EXAMPLES])


def _text(target: Path) -> str:
    return target.read_text(encoding="utf-8")


@each_example
def test_every_utilisation_is_that_of_the_result(name, pages):
    """Unrounded in the row's data, rounded up in what is read; every finding once."""
    target, made = pages[name]
    rows = re.findall(
        r'<tr role="row" data-part="(.*?)" data-check="(.*?)" data-use="(.*?)" .*?<b>(.*?)</b>', _text(target)
    )
    shown = {(html.unescape(part), check): (use, text) for part, check, use, text in rows}
    judged = [f for f in made.result.findings if f.verdict != "not checked"]
    assert len(rows) == len(shown) == len(judged)
    for finding in judged:
        use, text = shown[finding.part, finding.check]
        assert use == ("" if finding.utilisation is None else repr(finding.utilisation))
        assert text == ("nothing left" if finding.utilisation is None else use_of(finding))


@each_example
def test_every_check_that_was_not_done_is_listed(name, pages):
    """With its reason, and said to be no pass."""
    target, made = pages[name]
    listed = re.findall(r'<li data-part="(.*?)" data-check="(.*?)">', _text(target))
    skipped = [(f.part, f.check) for f in made.result.findings if f.verdict == "not checked"]
    assert [(html.unescape(part), check) for part, check in listed] == skipped


@each_example
def test_every_step_of_the_page_gives_its_result(name, pages):
    """The MathML, read back with the full values that stand in the page, meets the result at its precision."""
    steps = re.findall(
        r'<div class="step" data-result="(.*?)" data-unit="(.*?)" data-values="(.*?)">.*?'
        # A branch is a table within the formula, so it ends where the row of the numbers begins.
        r'<mtd class="formula">(.*?)</mtd></mtr><mtr><mtd></mtd><mtd><mo>=</mo></mtd><mtd class="numbers">.*?'
        r'<div class="result">= (.*?)</div>(.*?)</div></div>',
        _text(pages[name][0]),
        re.DOTALL,
    )
    assert steps
    for result, unit, given, formula, shown, rest in steps:
        values = {key: float(value) for key, value in json.loads(html.unescape(given)).items()}
        in_base = float(result) * BASE.get(unit, 1.0)
        assert read_mathml(formula, values) == pytest.approx(in_base, rel=1e-9, abs=1e-12)
        number = shown.removesuffix(unit).strip()
        mantissa, _, power = number.partition("e")
        half = 0.5 * 10.0 ** (int(power or 0) - len(mantissa.partition(".")[2]))
        assert abs(float(number) - float(result)) <= half * (1 + 1e-9)
        assert [float(value) for value in re.findall(r'<data value="(.*?)">', rest)] == list(values.values())


@each_example
def test_the_page_stands_alone_and_is_small(name, pages):
    """No outside address, and under 1.5 MB."""
    text = _text(pages[name][0])
    assert len(text.encode()) < 1_500_000
    addresses = set(re.findall(r'(?:src|href|action|url)\s*[=(]\s*"?([^")\s>]+)', text))
    assert all(address.startswith(("#", "data:", "var(")) for address in addresses), addresses
    assert set(re.findall(r"https?://[^\s\"'<)]+", text)) <= {"http://www.w3.org/2000/svg"}


@each_example
def test_the_page_carries_record_caution_and_input(name, pages):
    """So that a signed page can be matched to its file."""
    target, made = pages[name]
    text = _text(target)
    assert made.result.input_sha256 in text
    assert "2025-01-31" in text
    assert text.count("qualified engineer") >= 2
    source = next(path for path in EXAMPLES if path.stem == name).read_text(encoding="utf-8")
    assert html.escape(source, quote=False).splitlines()[0] in html.unescape(text) or source.splitlines()[0] in text


def test_the_same_file_gives_the_same_bytes():
    """But for the date."""
    path = EXAMPLES[-1]
    text = path.read_text(encoding="utf-8")
    one, two = (page(text, path.name, date="2025-01-31").html for _ in range(2))
    other = page(text, path.name, date="2025-02-28").html
    assert one == two
    assert one.replace("2025-01-31", "2025-02-28") == other


def test_a_press_named_like_a_script_is_text():
    """Every name is escaped, in the page and inside the drawings."""
    title, name = '"<script>alert(1)</script>"', '"<img src=x onerror=alert(2)> & co"'
    text = page(SMALLEST.format(title=title, name=name), "press.toml", date="2025-01-31").html
    assert "<script>alert(1)" not in text
    assert "<img" not in text
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in text
    assert "&lt;img src=x onerror=alert(2)&gt; &amp; co" in text


def test_a_condition_stands_below_the_heading_with_its_parts():
    """Angles held by one leg: whose centroid is meant is said, and the largest jack rests on it too."""
    upright = (
        '[[upright]]\nname = "{} upright"\nsection = "L 60x60x6"\nsteel = "S275"\nlength = "950 mm"\npull = 0.25\n'
        'quality = "JR"\n'
    )
    head = 'schema = 1\ntitle = "Small"\n[jack]\nrating = "4 t"\n[use]\nstatic = true\n'
    text = page(head + upright.format("left") + upright.format("right"), "press.toml", date="2025-01-31").html
    assert "Holds if all of this is so:</h2>" in text
    assert '<ul class="conditions"><li><b>left and right upright</b>: the pull runs through the centroid' in text
    assert "if the conditions above are met; then" in text
    assert "<title>Small: holds, on conditions</title>" in text


def test_symbols_in_sentences_have_their_index_below():
    """But names of the file, and what stands as code, are left as they are typed."""
    assert prose("2 x N_pl,Rd at f_y < 3") == "2 x N<sub>pl,Rd</sub> at f<sub>y</sub> &lt; 3"
    assert prose("gamma_M0") == "γ<sub>M0</sub>"
    for plain in ("[retention] jack_foot", "inner_end", "b_y = 3"):
        assert prose(plain) == plain
    assert prose("`f_y` is not stated") == "<code>f_y</code> is not stated"
    assert prose("`A_v 5 mm2`: A_v 966 mm2") == "<code>A_v 5 mm2</code>: A<sub>v</sub> 966\N{NO-BREAK SPACE}mm²"
    assert prose("life 40 300 presses") == "life 40\N{NO-BREAK SPACE}300 presses"


def test_the_states_of_the_corners_come_after_the_parts(pages):
    """The verdicts first."""
    text = _text(pages["orchard_press"][0])
    assert text.index('id="figure-corners-0') > text.index('id="parts"') > text.index("figure-moment")
    assert text.index('id="figure-corners-0') < text.index('id="unchecked"')


def test_the_command_writes_the_page(run, tmp_path):
    """And answers with the status of the check."""
    source, target = tmp_path / "press.toml", tmp_path / "out.html"
    source.write_text(SMALLEST.format(title='"Small"', name='"eye"'), encoding="utf-8")
    status, text, _ = run("report", source, "-o", target, "--date", "2025-01-31")
    assert status == 0
    assert text == f"Small: holds; the page is {target}\n"
    assert target.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    status, _, errors = run("report", source, "-o", tmp_path / "nowhere" / "out.html")
    assert status == 2
    assert "cannot be written" in errors
