"""A result, or what is wrong with the input, as strict JSON."""

import json
from collections.abc import Iterable, Mapping
from typing import Any

from structcheck.errors import InputError
from structcheck.findings import CAUTION, Result
from structcheck.report.record import Record
from structcheck.sizing.answer import Answer


def result_json(result: Result | Answer, record: Record | None = None, working: Iterable[Any] | None = None) -> str:
    """The JSON of a result; strict: no nan, no infinity. The record and the working stand behind the contract."""
    data = result.as_dict()
    if working is not None:
        data["working"] = list(working)
    if record is not None:
        data["record"] = record.as_dict()
    return dumps(data)


def errors_json(error: InputError) -> str:
    """The JSON of an input that cannot be used."""
    return dumps({"schema": 1, "errors": [problem.as_dict() for problem in error.problems], "caution": CAUTION})


def dumps(data: Mapping[str, Any] | Iterable[Any]) -> str:
    """Strict JSON, readable."""
    return json.dumps(data, indent=2, allow_nan=False, ensure_ascii=False)
