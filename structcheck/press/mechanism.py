"""What moves, from its description to its checks: springs of every kind, their seats, guides, and the jack's place."""

from collections.abc import Callable
from typing import Any

from structcheck.checks import guide, spring
from structcheck.checks.coil import Spring
from structcheck.checks.guide import Guide, check_guide
from structcheck.checks.spring import check_spring
from structcheck.findings import Outcome
from structcheck.materials.wires import find_wire
from structcheck.press import mechanism_schema as schema
from structcheck.press.fields import stated


def run_spring(table: schema.SpringTable, setting: Any) -> Outcome:
    """Check return springs as described."""
    own = stated(table, Spring) | {"grade": find_wire(table.grade), "rating": setting.rated}
    return check_spring(Spring(**own), setting.basis)


def run_guide(table: schema.GuideTable, setting: Any) -> Outcome:
    """Check a guide as described."""
    return check_guide(Guide(**stated(table, Guide)), setting.basis)


MECHANISM: dict[str, tuple[type[schema.Part], Callable[[Any, Any], Outcome], Callable[[Any], str], tuple[str, ...]]] = {
    "spring": (schema.SpringTable, run_spring, lambda t: f"Return springs, {t.count}", spring.NEEDED),
    "guide": (schema.GuideTable, run_guide, lambda t: f"Guide {t.length:g} mm", guide.NEEDED),
}
"""Kinds of part that move: table, check, title of a question, needed checks."""
