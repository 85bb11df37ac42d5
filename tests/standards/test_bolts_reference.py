"""Formulas of bolts, slip, T-stubs, tightening and pins against their published and derived values."""

import importlib
import tomllib
from pathlib import Path

import pytest

from tests.printed import printed

FOLDER = Path(__file__).parents[1] / "reference"
SCALE = {"": 1.0, "mm": 1.0, "kN": 1e3, "kN m": 1e6, "N m": 1e3}


CASES = [
    pytest.param(case, id=case["id"])
    for file in ("bolts.toml", "pins.toml")
    for case in tomllib.loads((FOLDER / file).read_text(encoding="utf-8"))["case"]
]


@pytest.mark.parametrize("case", CASES)
def test_a_formula_gives_the_printed_figure(case):
    """Each value at the precision it is printed with; its source and provenance stand beside it."""
    module, name = case["formula"].rsplit(".", 1)
    formula = getattr(importlib.import_module(f"structcheck.standards.{module}"), name)
    assert formula(**case["given"]) / SCALE[case["unit"]] == printed(case["printed"])


@pytest.mark.parametrize("case", CASES)
def test_every_value_says_where_it_is_from(case):
    """Source, and how it is known."""
    assert case["source"]
    assert case["provenance"] in ("read", "memory", "derived", "common practice")
