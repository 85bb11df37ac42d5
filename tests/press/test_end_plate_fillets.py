"""An end plate is only as good as the fillets that hold it on."""

import tomllib
from pathlib import Path

from structcheck.questions import check_press

CORNER = Path(__file__).parents[2] / "examples" / "bolted_corner_end_plate.toml"


def test_fillets_described_nowhere_are_a_condition():
    """With them the example holds; without them it holds if they do."""
    press = tomllib.loads(CORNER.read_text(encoding="utf-8"))
    assert check_press(press).verdict == "holds"
    del press["weld_group"]
    found = check_press(press)
    assert found.verdict == "holds if"
    assert any("fillets of end plates" in one.condition for one in found.conditions)
