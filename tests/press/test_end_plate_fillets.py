"""An end plate is only as good as the fillets that hold it on."""

import tomllib
from pathlib import Path

from structcheck.questions import check_press

EXAMPLES = Path(__file__).parents[2] / "examples"
CORNER = EXAMPLES / "bolted_corner_end_plate.toml"


def test_fillets_described_nowhere_are_a_condition():
    """With them the example holds; without them it holds if they do."""
    press = tomllib.loads(CORNER.read_text(encoding="utf-8"))
    assert check_press(press).verdict == "holds"
    del press["weld_group"]
    found = check_press(press)
    assert found.verdict == "holds if"
    assert any("fillets of end plates" in one.condition for one in found.conditions)


def test_bolts_of_an_end_plate_want_the_welds_that_hold_it():
    """As an [[end_plate]] does; a plate that nothing held on its beam passed as bolts alone."""
    told = tomllib.loads((EXAMPLES / "gluing_press_as_drawn.toml").read_text(encoding="utf-8"))
    text = "the welds of the plate of end plate bolts carry what its bolts do"
    assert text not in [a.condition for a in check_press(told).conditions]
    told["weld"] = [row for row in told["weld"] if "bed/left" not in row["at"]]
    assert text in [a.condition for a in check_press(told).conditions]


def test_what_bolts_of_an_end_plate_stand_on_is_a_condition_in_a_frame_of_members():
    """Nobody says which of the members there is behind it."""
    told = tomllib.loads((EXAMPLES / "tile_press_of_members.toml").read_text(encoding="utf-8"))
    told["bolts"][0] |= {"joint": "end plate", "planes": 1, "at": ["head/start"], "columns": 2, "gauge": "80 mm"}
    texts = [a.condition for a in check_press(told).conditions]
    assert f"what {told['bolts'][0]['name']} are bolted to bears what they put on it" in texts
