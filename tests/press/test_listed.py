"""Lists written in one text: what is read, and what is refused rather than read two ways."""

import pytest

from structcheck.errors import InputError
from structcheck.questions import ask
from tests.press.joints_given import found, press

PLATE = {"size": "M16", "bolt_class": "8.8", "plate": "10 mm", "steel": "S275", "end": "40 mm", "edge": "40 mm"}
GROUP = {"steel": "S235", "inspected": True, "force": "10 kN", "through": ["60 mm", "0 mm", "0 mm"]}


def _uses(kind, given):
    return {f.check: f.utilisation for f in ask(kind, given).findings}


def test_places_of_bolts():
    """As the list of pairs of a press file; one unit for all, in inches too."""
    pairs = [["-40 mm", "0 mm"], ["40 mm", "0 mm"], ["0 mm", "60.5 mm"]]
    listed = _uses("bolts", PLATE | {"layout": pairs, "shear": "40 kN"})
    assert _uses("bolts", PLATE | {"layout": "-40 0; 40 0; 0 60.5 mm", "shear": "40 kN"}) == listed
    inches, mm = (_uses("bolts", PLATE | {"layout": t, "shear": "40 kN"}) for t in ("0 0; 3 0 in", "0 0; 76.2 0 mm"))
    assert inches == pytest.approx(mm)


def test_three_along_the_axes():
    """A point, a direction, moments."""
    runs = ["0 -5 -40 to 0 -5 40 mm, throat 4 mm, sides both", "0 5 -40 to 0 5 40 mm, throat 4 mm, sides both"]
    listed = GROUP | {"runs": runs, "direction": [0.0, 0.0, -1.0], "moment": ["0 kN m", "0.2 kN m", "0 kN m"]}
    text = GROUP | {"runs": runs, "direction": "0 0 -1", "through": "60 0 0 mm", "moment": "0 0.2 0 kN m"}
    assert _uses("weld_group", text) == _uses("weld_group", listed)


@pytest.mark.parametrize(
    ("text", "table"),
    [
        (
            "0 0 0 to 0 0 80 mm, leg 6 mm, leg_2 8 mm, sides one, plate 8 mm, returned",
            {"end": ["0 mm", "0 mm", "80 mm"], "leg": "6 mm", "leg_2": "8 mm", "sides": "one", "plate": "8 mm"}
            | {"start": ["0 mm", "0 mm", "0 mm"], "returned": True},
        ),
        (
            "50 0 0 round 0 0 0 mm, angle 180 deg, axis 0 0 1, throat 4 mm, sides around",
            {"centre": ["0 mm", "0 mm", "0 mm"], "angle": "180 deg", "axis": [0.0, 0.0, 1.0], "throat": "4 mm"}
            | {"start": ["50 mm", "0 mm", "0 mm"], "sides": "around"},
        ),
        (
            "0 0 0 mm to 0 0 0.5 m, throat 4 mm, stretches 4, stretch 60 mm, sides lap",
            {"end": ["0 m", "0 m", "0.5 m"], "throat": "4 mm", "stretches": 4, "stretch": "60 mm", "sides": "lap"}
            | {"start": ["0 mm", "0 mm", "0 mm"]},
        ),
    ],
)
def test_a_run_in_words_is_the_run_in_keys(text, table):
    """Straight, round and in stretches; in a file and in a question alike."""
    given = {"name": "fillets", "steel": "S235", "force": "2 kN", "through": "10 0 0 mm"}
    one, other = (found(press(weld_group=[given | {"runs": [run]}]), "fillets") for run in (text, table))
    assert {c: f.utilisation for c, f in one.items()} == {c: f.utilisation for c, f in other.items()}
    assert one["weld size"].utilisation is not None or "dry = true" in one["weld size"].reason


@pytest.mark.parametrize(
    ("kind", "given", "words"),
    [
        ("bolts", {"layout": "-40,0 40,0 mm"}, "has a comma between numbers"),
        ("bolts", {"layout": "-40 0; 40 0"}, "one unit at the end"),
        ("bolts", {"layout": "-40 0 5; 40 0 mm"}, "x and y of every bolt"),
        ("bolts", {"layout": "1 0; " * 200 + "2 0 mm"}, "x and y of every bolt"),
        ("weld_group", {"runs": ["0 0 0 to 0 0 80 mm throat 4 mm"]}, "is no such list"),
        ("weld_group", {"runs": ["0 0 0 to 0 0 80 mm, throt 4 mm"]}, "any of axis, angle, kind, throat, leg"),
        ("weld_group", {"runs": ["0 0 to 0 0 80 mm, throat 4 mm"]}, "is no such list"),
        ("weld_group", {"runs": ["0 0 0 to 0 0 80 mm, throat 4 mm"], "through": "0 50 mm"}, "three values"),
        ("weld_group", {"runs": ["0 0 0 to 0 0 80 mm, throat 4 mm"], "through": "0 0 50"}, "has no unit"),
        ("butt", {"penetration": "6,6 mm", "length": "100 mm", "thickness": "10 mm"}, "has a comma between numbers"),
        ("weld", {"at": "head/left", "throat": "4 mm", "length": "60 mm"}, "is a place in a frame"),
    ],
)
def test_what_could_be_read_two_ways_is_refused(kind, given, words):
    """In words, with what is wanted."""
    own = {"bolts": PLATE | {"shear": "10 kN"}, "weld_group": GROUP, "butt": {"steel": "S235", "across": "1 kN"}}
    with pytest.raises(InputError, match=words):
        ask(
            kind, own.get(kind, {"steel": "S235", "along": "1 kN"}) | given, spell=lambda key: f"--{key}", numbers=False
        )


def test_bolts_take_every_component_of_a_load():
    """Across, twist and both bendings, each alone: the forces of two bolts 80 mm apart, by hand (design, factor 1)."""
    two = PLATE | {"layout": "-40 0; 40 0 mm", "thread": "out", "factor": 1.0, "plate_runs": "across"}
    loaded = lambda **load: {f.check: f for f in ask("bolts", two | load).findings}  # noqa: E731
    shank = 0.6 * 800 * 3.14159265 * 64 / 1.25
    assert loaded(across="20 kN")["bolt shear"].utilisation == pytest.approx(10e3 / shank)
    assert loaded(twist="0.8 kN m")["bolt shear"].utilisation == pytest.approx(10e3 / shank)
    assert loaded(bend_x="0.8 kN m")["bolt tension"].utilisation == pytest.approx(10e3 / (0.9 * 800 * 157 / 1.25))
    assert "one line" in loaded(bend_y="0.8 kN m")["bolt tension"].reason


def test_a_run_says_each_key_once():
    """Two runs in one text would else be one, the last words winning."""
    run = "0 0 0 to 0 0 80 mm, throat 4 mm, sides both"
    with pytest.raises(InputError, match="another run is written as a text of its own"):
        ask("weld_group", {"steel": "S235", "force": "1 kN", "runs": [f"{run}; {run.replace('0 80', '9 80')}"]})
