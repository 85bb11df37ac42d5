"""Sizes against the frame they stand in: what cannot be is refused by its key, what may not be is a condition."""

import copy
import tomllib
from pathlib import Path

import pytest

from structcheck.errors import InputError
from structcheck.questions import check_press

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
BINDERS, ORCHARD, GLUING = (
    tomllib.loads((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))
    for name in ("bookbinders_press", "orchard_press", "gluing_press_as_drawn")
)
"""Clear between the uprights: 450, 620 and 680 mm."""


POSTS = tomllib.loads((EXAMPLES / "veneer_press_on_posts.toml").read_text(encoding="utf-8"))
"""M36, 300 mm apart across the plates of 400 mm; 500 mm between plates of 50 mm."""


def changed(base, table, /, **keys):
    press = copy.deepcopy(base)
    row = press[table][0] if isinstance(press[table], list) else press[table]
    row.update(keys)
    return press


def refused(press):
    with pytest.raises(InputError) as error:
        check_press(press)
    return {problem.key: problem for problem in error.value.problems}


def conditions(press):
    return [a.condition for a in check_press(press).conditions]


@pytest.mark.parametrize(
    ("base", "table", "key", "size"),
    [
        (BINDERS, "jack", "base", "900 mm"),
        (BINDERS, "frame", "tooling", "2 m"),
        (BINDERS, "jack", "ram", "120 mm"),
        (BINDERS, "jack", "ram", "2.5 m"),
        (BINDERS, "jack", "bore", "12 mm"),
        (BINDERS, "platen", "along", "3 m"),
        (BINDERS, "platen", "across", "300 mm"),
        (BINDERS, "head", "pad", "900 mm"),
        (BINDERS, "head", "spreader", "2000 x 120 x 25 mm"),
        (ORCHARD, "platen", "length", "650 mm"),
        (ORCHARD, "guide", "spacing", "3800 mm"),
        (BINDERS, "guide", "spacing", "3800 mm"),
        (ORCHARD, "guide", "half_width", "900 mm"),
        (BINDERS, "guide", "half_width", "20 mm"),
    ],
)
def test_what_does_not_go_between_the_uprights_is_refused(base, table, key, size):
    """Each by its own key, with what there is room for."""
    more = {"columns": 2} if key == "spacing" else {}
    problem = refused(changed(base, table, **{key: size}, **more))["ram" if key == "bore" else key]
    assert problem.wanted


def test_a_platen_on_bearers_lies_across_the_frames():
    """1400 mm from frame to frame are no fault of a platen 350 mm wide; 700 mm reach round the uprights."""
    assert not [c for c in conditions(GLUING) if "notched" in c]
    wide = [c for c in conditions(changed(GLUING, "platen", width="700 mm")) if "notched" in c]
    assert wide and "680 mm apart" in wide[0]


def test_two_lengths_of_one_guide_are_refused():
    """The frame's and the guide's own."""
    problem = refused(changed(BINDERS, "guides", length="140 mm"))["length"]
    assert problem.fault == "is the length of no [[guide]]: 100 mm"


def test_a_guide_longer_than_the_opening_is_refused_and_one_that_meets_a_beam_is_a_condition():
    """950 mm clear, 150 of stroke: 900 mm pass the beams, 960 are not there."""
    long = changed(changed(ORCHARD, "guide", length="900 mm"), "guides", length="900 mm")
    assert [c for c in conditions(long) if c.startswith("guide rods passes the beams: 900 mm and the stroke of 150 mm")]
    longer = changed(changed(ORCHARD, "guide", length="960 mm"), "guides", length="960 mm")
    assert "longer than the opening of 950 mm" in refused(longer)["length"].fault


def test_play_as_large_as_the_guide_is_refused():
    """120 mm over 120 mm."""
    assert "as much as the guide is long" in refused(changed(ORCHARD, "guide", play="120 mm"))["play"].fault


def test_columns_on_uprights_stand_where_those_do():
    """500 mm apart, on either face of the 50 mm bars; 300 mm are elsewhere. Rods of their own go anywhere between."""
    for spacing in ("500 mm", "450 mm"):
        assert check_press(changed(BINDERS, "guide", columns=2, spacing=spacing))
    assert (
        "not how far the uprights stand apart"
        in refused(changed(BINDERS, "guide", columns=2, spacing="300 mm"))["spacing"].fault
    )
    assert check_press(changed(ORCHARD, "guide", spacing="300 mm"))


def test_uprights_and_beams_that_lap_leave_each_other_room():
    """A bar of 50 mm goes between flats 50 mm apart, not 40; nor do flats of 80 mm in all go into a gap of 60."""
    narrow = changed(BINDERS, "head", apart="40 mm", spreader="100 x 120 x 25 mm")
    assert "50 mm of upright do not go between the pieces of the head" in refused(narrow)["apart"].fault
    around = copy.deepcopy(BINDERS)
    around["uprights"] |= {"section": "FL 50x15", "pieces": 2, "apart": "60 mm"}
    around["bolts"] = [table | {"plate": "30 mm", "ply": "15 mm"} for table in around["bolts"]]
    assert "nor 80 mm of it between those of the upright" in refused(around)["apart"].fault
    around["uprights"]["apart"] = "80 mm"
    assert check_press(around)


def test_guides_slide_between_the_beams_not_in_them():
    """Bed 100 mm deep: 50 to 650 mm above its centre-line; guides of 100 mm have their middle at 100 to 600."""
    assert "puts the guides into a beam" in refused(changed(BINDERS, "guides", height="60 mm"))["height"].fault
    assert check_press(changed(BINDERS, "guides", height="100 mm"))


def test_jacks_stand_beside_each_other_and_beside_the_uprights():
    """Feet of 90 mm between uprights 450 mm apart: 90 mm from one to the next, 180 mm from the middle."""
    two = changed(changed(BINDERS, "jack", count=2), "frame", jacks=["-30 mm", "30 mm"])
    assert "stand 60 mm apart, less than a foot of 90 mm" in refused(two)["jacks"].fault
    two["frame"]["jacks"] = ["-190 mm", "190 mm"]
    assert refused(two)["jacks"].wanted == "at most 180 mm from the middle"
    two["frame"]["jacks"] = ["-90 mm", "90 mm"]
    assert check_press(two)


def test_a_foot_does_not_stand_in_the_back_of_a_c_frame():
    """The line of the force is 120 mm from it."""
    text = (EXAMPLES / "eyelet_press_c_frame.toml").read_text(encoding="utf-8")
    assert (
        "stands in the back, 120 mm from" in refused(changed(tomllib.loads(text), "jack", base="300 mm"))["base"].fault
    )


def test_what_a_spreader_sticks_out_beyond_its_beam_counts_for_nothing():
    """400 mm on flats that are 80 mm wide over all: the foot is held no further out than those."""
    wide = check_press(changed(BINDERS, "bed", spreader="100 x 400 x 25 mm"))
    said = "its spreader, 400 mm across, sticks out beyond its 80 mm, which counts for nothing"
    assert ("bed", said) in {(a.part, a.text) for a in wide.assumptions}

    def uses(result):
        return {(f.part, f.check): f.utilisation for f in result.findings}

    assert uses(wide) == uses(check_press(BINDERS))


@pytest.mark.parametrize(
    ("table", "key", "size", "told", "remedy"),
    [
        ("head", "width", "330 mm", "does not reach over its posts, 300 mm apart", 'width = "333 mm"'),
        ("rod", "size", "M30", "is not the thread of the uprights, M36", 'size = "M36"'),
        ("rod", "length", "590 mm", "shorter than the opening and both plates, 600 mm", 'length = "600 mm"'),
        ("rod", "count", 4, "is not the 1 that stand at each corner", "count = 1"),
        ("uprights", "detail", "rolled parent metal", "is better than the thread", 'detail = "bolt in tension"'),
    ],
)
def test_posts_and_plates_are_of_one_press(table, key, size, told, remedy):
    """A plate off its posts; rods of another thread than the uprights they are, or shorter than they."""
    problem = refused(changed(POSTS, table, **{key: size}))[key]
    assert told in problem.fault
    assert problem.remedy == remedy
    assert check_press(changed(POSTS, "rod", length="600 mm")).verdict == "holds"


def test_a_threaded_upright_is_judged_as_a_thread_in_fatigue():
    """EN 1993-1-9 Table 8.1, bolts and rods with threads in tension: category 50 (memory); a plain bar is 160."""

    def use(press):
        found = {(f.part, f.check): f.utilisation for f in check_press(press).findings}
        return found["left upright", "fatigue"]

    unsaid, plain = changed(POSTS, "uprights"), changed(POSTS, "uprights", section="RD 32")
    del unsaid["uprights"]["detail"], plain["uprights"]["thread"]
    plain["uprights"]["detail"] = "rolled parent metal"
    del plain["rod"]
    assert use(unsaid) == pytest.approx(use(POSTS))
    assert use(unsaid) == pytest.approx(160 / 50 * use(plain), rel=0.1)


def test_where_holes_stand_is_never_taken_silently():
    text = "its holes stand on its middle line (`hole_offset` not stated)"
    assert ("left upright", text) in {(a.part, a.text) for a in check_press(BINDERS).assumptions}
    said = changed(BINDERS, "uprights", hole_offset="0 mm")
    assert text not in {a.text for a in check_press(said).assumptions}


def test_planes_stand_beside_each_other():
    """Two frames of the gluing press: IPE 160, 82 mm wide, in uprights that are wider."""
    problem = refused(changed(GLUING, "frame", spacing="60 mm"))["spacing"]
    assert "the planes run into each other" in problem.fault


def test_a_corner_that_cannot_turn_is_no_pin_without_a_word():
    """End plates bolted to the uprights' flanges hand on a moment, whatever is written of the corners."""
    plates = tomllib.loads((EXAMPLES / "bolted_corner_end_plate.toml").read_text(encoding="utf-8"))
    told = conditions(changed(plates, "frame", corners="pinned"))
    assert any("end plates lets the corner turn as freely as a pin, as stated" in text for text in told)
    assert any(text.startswith("head/left, head/right, bed/left, bed/right: ") for text in told)
    assert conditions(plates) == []
    loose = conditions(plates | {"corner": {"bed/left": {"stiffness": "pinned"}}})
    assert any(text.startswith("bed/left: ") for text in loose)
