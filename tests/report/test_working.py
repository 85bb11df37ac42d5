"""The working: what is shown is what was computed."""

import importlib
import json
import pkgutil
import subprocess
import sys
from pathlib import Path

import pytest

import structcheck.standards
from structcheck.formula import REGISTERED, Remark, Step
from structcheck.questions import check_press, check_weld
from structcheck.report.working import Again, notebook
from structcheck.report.working_json import step_dict
from structcheck.report.working_latex import latex, working_latex
from structcheck.report.working_linear import linear
from structcheck.report.working_mathml import mathml
from structcheck.report.working_shown import shown
from structcheck.report.working_text import working_text
from tests.report.formula_readers import read_line, read_mathml

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
BASE = {"kN": 1e3, "kN m": 1e6}
"""Base units in one of the units a result is shown in; every other unit is a base unit."""

each_example = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)


def _steps(path):
    for part in notebook(check_press(path, working=True)):
        for line in (*part.shared, *(step for entry in part.entries for step in entry.steps)):
            if not isinstance(line, Remark | Again):
                yield shown(line)


def _half_a_last_figure(text):
    """Half a unit in the last place of a shown number."""
    mantissa, _, power = text.partition("e")
    decimals = len(mantissa.partition(".")[2])
    return 0.5 * 10.0 ** (int(power or 0) - decimals)


@each_example
def test_every_formula_shown_gives_the_result_shown(path):
    """Read back by a reader of its own, with the full values, it meets the result at its precision."""
    count = 0
    for step in _steps(path):
        in_base = step.result * BASE.get(step.unit, 1.0)
        data = step_dict(step)
        values = step.values
        assert read_line(data["formula"], values) == pytest.approx(in_base, rel=1e-9, abs=1e-12), data
        assert read_mathml(mathml(step.expression, step.choices), values) == pytest.approx(in_base, rel=1e-9, abs=1e-12)
        shown_value = float(step.result_text)
        assert abs(shown_value - step.result) <= _half_a_last_figure(step.result_text) * (1 + 1e-9), data
        count += 1
    assert count >= 5


def test_every_formula_of_the_package_can_be_shown():
    """On its trial values: line, MathML, LaTeX and notebook, and both readers meet its result."""
    for module in pkgutil.walk_packages(structcheck.standards.__path__, "structcheck.standards."):
        importlib.import_module(module.name)
    for made in REGISTERED:
        step = shown(Step(made, (), made.trial, made(**made.trial)))
        result = pytest.approx(step.result * BASE.get(step.unit, 1.0), rel=1e-9)
        assert read_line(linear(step.expression), step.values) == result, made
        assert read_mathml(mathml(step.expression, step.choices), step.values) == result, made
        assert latex(step.expression).count("{") == latex(step.expression).count("}")


@each_example
def test_the_numbers_shown_are_the_values_rounded(path):
    """The line below the formula, read as it stands, gives the result to the five figures of its numbers."""
    for step in _steps(path):
        in_base = step.result * BASE.get(step.unit, 1.0)
        numbers = step_dict(step)["numbers"]
        # Differences of near numbers lose figures; nowhere in the examples more than two.
        assert read_line(numbers, {}) == pytest.approx(in_base, rel=2e-2, abs=1e-3), step_dict(step)
        assert read_mathml(mathml(step.numbers), {}) == pytest.approx(read_line(numbers, {}), rel=1e-12, abs=1e-15)


@each_example
def test_the_term_that_governs_is_the_one_that_was_taken(path):
    """A min takes its least term, a max its greatest, and the terms are those of the full values.

    A branch is taken by its condition; that the step's result follows from it is read elsewhere.
    """
    for step in _steps(path):
        for choice in (choice for choice in step.choices if choice.kind != "branch"):
            best = {"min": min, "max": max}[choice.kind](choice.values)
            assert choice.values[choice.taken] == best


@each_example
def test_every_finding_that_was_judged_has_its_working(path):
    """In the order of the findings; each with the demand over the capacity that was judged."""
    result = check_press(path, working=True)
    judged = [(f.part, f.check) for f in result.findings if f.verdict != "not checked"]
    entries = [(e.finding.part, e.finding.check) for part in notebook(result) for e in part.entries]
    assert sorted(entries) == sorted(judged)


def test_the_working_of_a_weld_reads_like_a_notebook():
    """Clause in the margin, formula on its line, numbers below, result at the right edge."""
    answer = check_weld(throat="4 mm", length="120 mm", runs=2, steel="S275", along="40 kN", inspected=True)
    text = working_text(answer, 90)
    assert (
        """\
weld: weld size                                                                 0.75 holds
------------------------------------------------------------------------------------------
EN 1993-1-8:2005          l_eff = l - 2⋅a
4.5.1(1)                        = 120 - 2⋅4                                       = 112 mm
EN 1993-1-8:2005          l_eff,min = max(30, 6⋅a)
4.5.1(2)                            = max(30, 6⋅4)                                 = 30 mm
                              max: >30  24
EN 1993-1-8:2005          use = 3.000 mm / 4.000 mm                                 = 0.75
4.5.2(2)
                          because: throat: no less than 3 mm carries load (beside it:
                          effective length 0.27)
"""
        in text
    )
    assert (
        """\
EN 1993-1-8:2005                       f_u
4.5.3.3(3)                f_vw,d = ───────────
                                   √3⋅β_w⋅γ_M2
                                       410
                                 = ────────────                               = 222.79 MPa
                                   √3⋅0.85⋅1.25
"""
        in text
    )
    assert max(map(len, text.splitlines())) <= 96


def test_latex_on_request():
    """The same steps for somebody who keeps their own file."""
    answer = check_weld(throat="4 mm", length="120 mm", runs=2, steel="S275", along="40 kN", inspected=True)
    text = working_latex(answer)
    assert r"\frac{f_{\mathrm{u}}}{\sqrt{3} \cdot \beta_{\mathrm{w}} \cdot \gamma_{\mathrm{M2}}}" in text
    assert text.count(r"\begin{align*}") == text.count(r"\end{align*}") > 3


def test_a_result_tells_its_working_in_python():
    """`Result.working` pairs each finding with the calls that decided it."""
    answer = check_weld(throat="4 mm", length="120 mm", runs=2, steel="S275", along="40 kN", inspected=True)
    finding, steps = next((f, s) for f, s in answer.working if f.check == "weld size")
    assert [(s.formula.symbol, s.result) for s in steps] == [("l_eff", 112), ("l_eff,min", 30)]
    assert finding.check == "weld size"


def test_checking_without_working_imports_no_printer():
    """sympy, matplotlib and jinja2 stay unimported: they cost more than the check."""
    code = (
        "import sys; from structcheck.cli.main import main; main(['check', 'examples/orchard_press.toml']);"
        "print([m for m in ('sympy', 'matplotlib', 'jinja2') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_the_working_is_in_the_json_where_asked(run):
    """With full values; the contract's own fields stay where they are."""
    words = ("weld", "--throat", "4 mm", "--length", "120 mm", "--steel", "S275", "--along", "40 kN", "--json")
    _, plain, _ = run(*words)
    assert "working" not in json.loads(plain)
    _, asked, _ = run(*words, "--working")
    data = json.loads(asked)
    second = data["working"][0]["findings"][0]["steps"][1]
    assert second == {
        "symbol": "l_eff,min",
        "source": "EN 1993-1-8:2005 4.5.1(2)",
        "formula": "max(30, 6 · a)",
        "numbers": "max(30, 6 · 4)",
        "values": {"a": 4.0},
        "result": {"value": 30, "unit": "mm"},
        "governs": [{"of": "max", "terms": [30.0, 24.0], "taken": 0}],
    }
