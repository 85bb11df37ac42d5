"""Every example is checked, says what was meant, and carries the caution."""

import json
from pathlib import Path

import pytest

from structcheck.cli.main import main

EXAMPLES = sorted((Path(__file__).resolve().parent.parent / "examples").glob("*.toml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_is_answered(path, capsys):
    """In text and in JSON, with the same verdict; every finding has a source or a reason."""
    status = main(["check", str(path)])
    text = capsys.readouterr().out
    assert main(["check", str(path), "--json"]) == status
    data = json.loads(capsys.readouterr().out)
    assert status in (0, 1, 3)
    assert {"holds": 0, "fails": 1, "incomplete": 3, "holds if": 3}[data["verdict"]] == status
    assert "qualified engineer" in text
    assert all(f["source"] or f["reason"] for f in data["findings"])
    assert len({(f["part"], f["check"]) for f in data["findings"]}) == len(data["findings"])


def test_there_are_examples():
    """An empty folder would pass the test above."""
    assert len(EXAMPLES) >= 5
