"""The JSON Schema of the press file, and results in a notebook."""

import json
import tomllib

import pytest

from structcheck.questions import check_weld
from structcheck.report.press_schema import press_schema
from structcheck.report.table import use_of
from tests.report.conftest import EXAMPLES


def test_the_command_prints_it(run):
    """Made from the description, so that it cannot lag behind it."""
    status, text, _ = run("schema")
    assert status == 0
    assert json.loads(text) == press_schema()


def _fits(value, schema, root, place):
    """The places of a description that a schema has no room for: keys it does not name."""
    if "$ref" in schema:
        return _fits(value, root["$defs"][schema["$ref"].rsplit("/", 1)[1]], root, place)
    options = schema.get("anyOf")
    if options:
        return min((_fits(value, option, root, place) for option in options), key=len)
    if isinstance(value, dict):
        extra = schema.get("additionalProperties")
        if isinstance(extra, dict):
            return [w for key, inner in value.items() for w in _fits(inner, extra, root, f"{place}.{key}")]
        known = schema.get("properties", {})
        wrong = [f"{place}.{key}" for key in value if key not in known]
        wrong += [f"{place}.{key} missing" for key in schema.get("required", ()) if key not in value]
        for key, inner in value.items():
            if key in known:
                wrong += _fits(inner, known[key], root, f"{place}.{key}")
        return wrong
    if isinstance(value, list) and "items" in schema:
        return [w for inner in value for w in _fits(inner, schema["items"], root, f"{place}[]")]
    kinds = {str: "string", bool: "boolean", int: "integer", float: "number"}
    wanted = schema.get("type")
    choices = [wanted] if isinstance(wanted, str) else wanted or [kinds.get(type(value))]
    fits = kinds.get(type(value)) in choices or ("number" in choices and isinstance(value, int))
    return [] if fits else [f"{place} is no {wanted}"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_fits_the_schema(path):
    """An editor that has the schema complains of none of them."""
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    assert _fits(data, press_schema(), press_schema(), "") == []


def test_the_schema_knows_a_slip_of_the_pen():
    """A key nobody knows has no room."""
    schema = press_schema()
    assert _fits({"schema": 1, "jack": {"ratting": "8 t"}}, schema, schema, "") == [
        ".jack.ratting",
        ".jack.rating missing",
    ]


def test_a_result_shows_itself_in_a_notebook():
    """Verdict, findings, caution; every text escaped."""
    answer = check_weld(
        name="<b>eye</b>", throat="4 mm", length="120 mm", runs=2, steel="S275", along="40 kN", inspected=True
    )
    html = answer._repr_html_()
    assert "<strong>Weld 2 x 120 mm: holds</strong>" in html
    assert "&lt;b&gt;eye&lt;/b&gt;" in html
    assert "<b>" not in html
    assert f"<td>{use_of(answer.governing)}</td>" in html
    assert "qualified engineer" in html
