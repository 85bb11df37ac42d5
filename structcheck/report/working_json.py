"""The working in JSON: every step with its formula, its full values and its result."""

import math
from collections.abc import Sequence
from typing import Any

from structcheck.findings import Result
from structcheck.formula import Remark
from structcheck.report.working import Again, Line, notebook
from structcheck.report.working_linear import linear
from structcheck.report.working_shown import Shown, shown


def working_dicts(result: Result) -> list[dict[str, Any]]:
    """One object a part: what its checks share, then each finding's steps in order."""
    return [
        {
            "part": part.part,
            "shared": _steps(part.shared),
            "findings": [
                {
                    "check": entry.finding.check,
                    "case": entry.finding.case,
                    "utilisation": entry.finding.utilisation,
                    "steps": _steps(entry.steps),
                }
                for entry in part.entries
            ],
        }
        for part in notebook(result)
    ]


def _steps(lines: Sequence[Line]) -> list[dict[str, Any]]:
    return [_step(line) for line in lines]


def _step(line: Line) -> dict[str, Any]:
    if isinstance(line, Remark):
        return {"remark": line.text, "source": line.source}
    if isinstance(line, Again):
        return {"again": line.step.formula.symbol, "source": line.step.formula.source}
    return step_dict(shown(line))


def step_dict(line: Shown) -> dict[str, Any]:
    """A step with everything needed to compute it again."""
    return {
        "symbol": line.symbol,
        "source": line.source,
        "formula": linear(line.expression),
        "numbers": linear(line.numbers),
        "values": {name: _finite(value) for name, value in line.values.items()},
        "result": {"value": _finite(line.result), "unit": line.unit},
        "governs": [{"of": c.kind, "terms": [_finite(v) for v in c.values], "taken": c.taken} for c in line.choices],
    }


def _finite(value: float) -> float | None:
    """Strict JSON knows no infinity."""
    return value if math.isfinite(value) else None
