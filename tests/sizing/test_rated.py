"""The largest rating: what it promises holds when it is checked again."""

from pathlib import Path

import pytest

from structcheck.press.model import check_description
from structcheck.press.reading import describe, read_press
from structcheck.press.schema import PressFile
from structcheck.report.rated import headline, rated_as_text, rating_text
from structcheck.sizing.rated import STIFFNESS, rated_load

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*press*.toml"))

BEAM = {
    "schema": 1,
    "title": "One beam",
    "jack": {"rating": "4 t"},
    "limits": {"deflection": "L/500"},
    "beam": [{"name": "head", "section": "SHS 100x100x5", "steel": "S275", "span": "900 mm", "load": 1.0}],
}
WELD = {
    "schema": 1,
    "title": "One weld",
    "jack": {"rating": "4 t", "relief": "5 t"},
    "use": {"static": True},
    "weld": [
        {
            "name": "eye",
            "throat": "4 mm",
            "length": "90 mm",
            "runs": 2,
            "steel": "S275",
            "along": 1.0,
            "inspected": True,
        }
    ],
}


def _press(data, **jack):
    return describe(PressFile, data | {"jack": data["jack"] | jack})


def _again(press, rating):
    """Checked under that jack; the valve of a bigger one opens as far above its rating as the stated one's."""
    jack = press.jack.model_copy(update={"rating": rating})
    if jack.relief is not None and rating > press.jack.rating:
        kind, value = jack.relief
        jack = jack.model_copy(update={"relief": (kind, value * rating / press.jack.rating)})
    return check_description(press.model_copy(update={"jack": jack}))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_press_checked_again_at_its_rating_is_just_used_up(path):
    """What governs stands between 0.998 and 1.000; nothing fails but what fails whatever the rating."""
    press = read_press(path.read_text(encoding="utf-8"), path.name)
    rated = rated_load(press)
    if rated.strength.rating is None:
        assert rated.strength.reason
        return
    result = _again(press, rated.strength.rating)
    first = rated.strength.governing[0]
    again = next(f for f in result.findings if (f.part, f.check) == (first.part, first.check))
    assert 0.998 <= again.utilisation <= 1.0
    anyway = {(f.part, f.check) for f in rated.fails_anyway}
    failing = {(f.part, f.check) for f in result.findings if f.verdict == "fails" and f.check not in STIFFNESS}
    assert failing == anyway


def test_a_bigger_jack_brings_its_own_valve():
    """Its greatest force grows with it: at the stated 5.5 t posts were promised 13.6 t and yield at 1.1 times that."""
    text = (ROOT / "examples" / "veneer_press_on_posts.toml").read_text(encoding="utf-8")
    rated = rated_load(read_press(text, "veneer.toml"))
    tonnes = rated.strength.rating / 9806.65
    bought = text.replace('"5 t"', f'"{tonnes} t"').replace('"5.5 t"', f'"{1.1 * tonnes} t"')
    assert not [f for f in check_description(read_press(bought, "bought.toml")).findings if f.verdict == "fails"]
    assert rated.notes[0].startswith("a bigger jack's valve is taken to open at 1.1 times its rating")


def test_stiffness_has_a_rating_of_its_own():
    """Deflection is in proportion to the rating: at the rating found it is the limit, to 0.2 %."""
    press = _press(BEAM)
    rated = rated_load(press)
    finding = next(f for f in _again(press, rated.stiffness.rating).findings if f.check == "deflection")
    assert 0.998 <= finding.utilisation <= 1.0
    at_4_t = next(f for f in check_description(press).findings if f.check == "deflection")
    assert rated.stiffness.rating == pytest.approx(press.jack.rating / at_4_t.utilisation, rel=2e-3)


def test_a_weld_is_rated_by_its_strength_over_the_load_factor():
    """EN 1993-1-8:2005 4.5.3.3 (derived): F = f_u / sqrt(3) / (beta_w gamma_M2) a l_eff runs / 1.5 = 97.42 kN."""
    rated = rated_load(_press(WELD))
    by_hand = 410 / 3**0.5 / (0.85 * 1.25) * 4 * (90 - 8) * 2 / 1.5
    assert rated.strength.rating == pytest.approx(by_hand, rel=1e-3)
    assert rated.strength.rating <= by_hand
    assert rated.strength.governing[0].check == "weld throat"


def test_a_stated_valve_keeps_its_setting():
    """With the valve at 13 t the ultimate force stays 1.2 x 13 t until 1.5 R is more; no small rating helps."""
    rated = rated_load(_press(WELD, relief="13 t"))
    assert rated.strength.rating is None
    assert rated.strength.reason == "eye, weld throat fails however small the jack, its valve as stated"
    assert rated.exit_status == 1
    assert headline(rated) == f"One weld: NO RATING HOLDS: {rated.strength.reason}"
    # 146.1 kN of ultimate resistance over 1.2 x 3.25, the share the valve has of the rating (derived).
    assert rated.notes[-1] == "a jack of 37.46 kN whose valve opens at 3.25 times that would be held"


def test_forces_the_user_typed_keep_their_size():
    """A weld under 40 kN of the user's has nothing to do with the jack."""
    data = WELD | {"weld": [WELD["weld"][0] | {"along": "40 kN"}]}
    rated = rated_load(describe(PressFile, data))
    assert rated.strength.rating is None
    assert rated.strength.reason == "nothing that was judged depends on the jack"


def test_what_was_not_checked_makes_the_answer_incomplete():
    """The number is still given, and called no rating."""
    data = BEAM | {"beam": [BEAM["beam"][0] | {"section": "IPE 160"}]}
    rated = rated_load(describe(PressFile, data))
    assert rated.not_checked
    assert rated.exit_status in (1, 3)
    assert "Not checked (not a pass)" in rated_as_text(rated, width=100)


def test_a_rating_in_tonnes_is_rounded_down_too():
    """97.39 kN are 9.93102 t: four figures, never up."""
    assert rating_text(97390.0) == "97.39 kN (9.931 t)"
    assert rating_text(1234000.0) == "1234 kN (125.8 t)"


def test_what_a_bigger_jack_eases_is_not_named_as_what_fails_under_the_smallest():
    """Springs that a tiny jack could not press stand beside a weld that its valve breaks: the weld is the reason."""
    spring = {"name": "spring", "wire": "6 mm", "mean": "42 mm", "active": 36, "turns": 38, "ends": "ground"}
    spring |= {"grade": "SM", "free": "515 mm", "fitted": "420 mm", "pressed": "270 mm", "lifts": "1 kg", "held": "rod"}
    rated = rated_load(_press(WELD | {"spring": [spring]}, relief="13 t"))
    assert rated.strength.reason.startswith("eye, weld throat fails however small the jack")


def test_what_fails_whatever_the_jack_is_told_apart():
    """A spring pressed too far fails under any jack: there is no rating, and the strength of the rest is still told."""
    spring = {"name": "spring", "wire": "6 mm", "mean": "42 mm", "active": 12, "turns": 14, "ends": "ground"}
    spring |= {"grade": "SM", "free": "300 mm", "fitted": "250 mm", "pressed": "120 mm", "lifts": "1 kg", "held": "rod"}
    rated = rated_load(describe(PressFile, WELD | {"spring": [spring]}))
    assert "spring stress" in {f.check for f in rated.fails_anyway}
    assert rated.rating is None
    assert rated.exit_status == 1
    assert headline(rated) == (
        "One weld: NO RATING HOLDS AS IT IS: spring, spring stress when solid and 1 more fail, which no smaller jack "
        "mends; with it put right the rest holds 97.41 kN (9.933 t)"
    )
    assert rated.strength.governing[0].check == "weld throat"
