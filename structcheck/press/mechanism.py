"""What moves, from its description to its checks: springs of every kind, their seats, guides, and the jack's place."""

from structcheck.checks import guide, spring
from structcheck.checks.coil import Spring
from structcheck.checks.guide import Guide, check_guide
from structcheck.checks.spring import check_spring
from structcheck.findings import Outcome
from structcheck.materials.wires import find_wire
from structcheck.press import mechanism_schema as schema
from structcheck.press.fields import stated
from structcheck.press.setting import PartKind, Setting


def run_spring(table: schema.SpringTable, setting: Setting) -> Outcome:
    """Check return springs as described."""
    own = stated(table, Spring) | {"grade": find_wire(table.grade), "rating": setting.rated}
    return check_spring(Spring(**own), setting.basis)


def run_guide(table: schema.GuideTable, setting: Setting) -> Outcome:
    """Check a guide as described."""
    return check_guide(Guide(**stated(table, Guide)), setting.basis)


MECHANISM: dict[str, PartKind] = {
    "spring": PartKind(schema.SpringTable, run_spring, lambda t: f"Return springs, {t.count}", spring.NEEDED),
    "guide": PartKind(schema.GuideTable, run_guide, lambda t: f"Guide {t.length:g} mm", guide.NEEDED),
}
"""Kinds of part that move, as `KINDS` of parts.py holds them."""
