"""Reads the check values of this folder by file and case."""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

PROVENANCE = ("read", "memory", "derived", "common practice")


@cache
def cases(file: str) -> dict[str, dict[str, Any]]:
    """Every case of a file by its name; each must say its source and provenance."""
    text = Path(__file__).with_name(f"{file}.toml").read_text(encoding="utf-8")
    found = {case["id"]: case for case in tomllib.loads(text)["case"]}
    for name, case in found.items():
        assert case["source"], name
        assert case["provenance"] in PROVENANCE, name
    return found


def case(file: str, name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """(inputs, expected) of one case."""
    row = cases(file)[name]
    return row.get("inputs", {}), row["expected"]
