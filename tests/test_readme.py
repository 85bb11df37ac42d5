"""The README cannot lie: its press file prints its table, its commands and code run."""

import os
import re
import shlex
import subprocess
from pathlib import Path

from structcheck.cli.main import main
from structcheck.questions import check_press, check_text
from structcheck.report.record import record_of
from structcheck.report.table import as_text

ROOT = Path(__file__).resolve().parent.parent
README = ROOT / "README.md"


def _block(after: str) -> str:
    """The fenced block that follows a marker."""
    text = README.read_text(encoding="utf-8")
    found = re.search(rf"<!-- {after} -->\n```\w+\n(.*?)```", text, re.DOTALL)
    assert found, after
    return found[1]


def test_the_press_file_prints_the_table_shown():
    """To renew the table after a change: README_WRITE=1 python -m pytest tests/test_readme.py."""
    result = check_text(_block("a press file"), "bench.toml")
    answer = as_text(result, width=120, record=record_of(result, "2026-01-31"))
    if os.environ.get("README_WRITE"):
        text = README.read_text(encoding="utf-8")
        text = re.sub(r"(<!-- its answer -->\n```text\n).*?```", lambda m: f"{m[1]}{answer}```", text, flags=re.DOTALL)
        README.write_text(text, encoding="utf-8")
    assert _block("its answer") == answer


def test_the_commands_shown_are_understood(capsys, tmp_path, monkeypatch):
    """Every `structcheck ...` line of a shell block ends with a verdict, not with a complaint."""
    (tmp_path / "examples").symlink_to(ROOT / "examples")
    monkeypatch.chdir(tmp_path)
    text = README.read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line.startswith("structcheck ")]
    assert len(lines) >= 5
    for line in lines:
        assert main(shlex.split(line)[1:]) in (0, 1, 3), line
    capsys.readouterr()


def test_the_python_shown_runs():
    """The block of code, as it stands."""
    code = re.search(r"```python\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)[1]
    names: dict = {}
    exec(code, names)
    assert names["answer"].verdict in ("fails", "incomplete", "holds if", "holds")


def test_the_two_commands_are_valid_shell():
    """They are run whole on a fresh clone; here only their grammar."""
    for marker in ("the example", "the tests"):
        assert subprocess.run(["sh", "-n", "-c", _block(marker)], check=False).returncode == 0


def test_every_key_of_the_press_file_is_in_the_readme():
    """A key that is not documented does not exist for a builder."""
    from structcheck.press.reading import table_of
    from structcheck.press.schema import PressFile

    text = README.read_text(encoding="utf-8")
    for name, field in PressFile.model_fields.items():
        key = field.alias or name
        assert f"`{key}`" in text or f"[{key}]" in text or f"[{key}." in text, key
        table = table_of(field.annotation)
        for inner, described in table.model_fields.items() if table else ():
            assert f"`{described.alias or inner}`" in text, f"{key}.{inner}"


def test_every_shape_of_frame_has_an_example_to_start_from():
    """Each link leads to a file of that shape, and those said to hold do."""
    from structcheck.press.frame.meaning import TABLES

    text = README.read_text(encoding="utf-8")
    rows = re.findall(r"^\| [^|]+ \| (\w+) \| \[\w+\]\((examples/\w+\.toml)\) \|$", text, re.MULTILINE)
    assert {shape for shape, _ in rows} == set(TABLES)
    for shape, file in rows:
        assert f'shape = "{shape}"' in (ROOT / file).read_text(encoding="utf-8"), file
    sentence = next(
        line for line in text.splitlines() if "show the other shapes, described to the end, and hold" in line
    )
    for name in re.findall(r"`(\w+)`", sentence):
        assert check_press(ROOT / "examples" / f"{name}.toml").verdict == "holds", name
