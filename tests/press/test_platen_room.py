"""A platen in a frame that is smaller than twice the way the force may stand off the middle."""

import tomllib
from pathlib import Path

from structcheck.questions import check_press

ORCHARD = Path(__file__).parents[2] / "examples" / "orchard_press.toml"


def test_a_force_off_the_platen_is_not_checked():
    """15 mm off in and across the plane leaves nothing of 30 mm: neither a crash nor a pass."""
    press = tomllib.loads(ORCHARD.read_text(encoding="utf-8"))
    press["platen"][0] |= dict.fromkeys(("length", "width", "along", "across"), "30 mm")
    found = {f.check: f for f in check_press(press).findings if f.part == press["platen"][0]["name"]}
    assert found["bending"].verdict == "not checked"
    assert "off the platen" in found["bending"].reason
