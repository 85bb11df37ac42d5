"""Closed frames that cannot be: each told in one clear message."""

import pytest

from structcheck.errors import InputError
from tests.press.frames import (
    ORCHARD,
    ORCHARD_JACK,
    answer,
    tables,
)


@pytest.mark.parametrize(
    ("frame", "jack_data", "message"),
    [
        ({"height": "100 mm", "opening": None}, {}, "frame, height: 100 mm puts the bed above the head"),
        ({}, {"stroke": "1200 mm"}, "jack, stroke: 1200 mm is longer than the opening the jack stands in"),
        ({"height": "1070 mm"}, {}, "frame, height: stands beside opening"),
        ({"span": "60 mm"}, {}, "frame, span: 60 mm leaves no room between the uprights"),
        ({"planes": 2}, {}, "frame, spacing: is missing"),
        (
            {"spacing": "300 mm"},
            {},
            "frame, spacing: 300 mm is the distance between planes, and there is one (planes = 1)",
        ),
        ({}, {"count": 2}, "frame, jacks: is missing: where each jack stands"),
        ({"jacks": ["400 mm"]}, {}, "frame, jacks: 400 mm stands beyond an upright"),
    ],
)
def test_a_wrong_measure_is_one_clear_message(frame, jack_data, message):
    """Each fault names its place, what was found and what is wanted."""
    told = {key: v for key, v in (ORCHARD["frame"] | frame).items() if v is not None}
    with pytest.raises(InputError) as error:
        answer(ORCHARD | {"frame": told}, ORCHARD_JACK | jack_data)
    assert str(error.value).splitlines()[0] == message


def test_a_distance_between_pieces_wants_several():
    """`apart` beside one piece: another number of pieces was meant."""
    alone = {key: value for key, value in ORCHARD["head"].items() if key != "pieces"} | {"apart": "20 mm"}
    with pytest.raises(InputError) as error:
        answer(ORCHARD | {"head": alone}, ORCHARD_JACK)
    first, _, last = str(error.value).splitlines()[:3]
    assert first == "head, apart: 20 mm is the distance between pieces, and there is one (pieces = 1)"
    assert last.split() == ["try:", "pieces", "=", "2"]


def test_a_missing_beam_is_told():
    """A frame without its uprights cannot be analysed."""
    with pytest.raises(InputError, match="uprights: is not described"):
        answer({key: table for key, table in ORCHARD.items() if key != "uprights"}, ORCHARD_JACK)


def test_a_joints_stiffness_is_read_or_refused():
    """A moment per radian, rigid, pinned or unknown; nothing else."""
    assert tables({"corner": {"head/left": {"stiffness": "800 kN m/rad"}}}).corner["head/left"].stiffness == 8e8
    with pytest.raises(InputError, match="is not a stiffness of a joint"):
        tables({"corner": {"head/left": {"stiffness": "800 kN m"}}})


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            {
                "plate": {
                    "thickness": "40 mm",
                    "steel": "S235",
                    "back": "90 mm",
                    "upper": "90 mm",
                    "lower": "90 mm",
                    "radius": "20 mm",
                }
            },
            'plate: has no meaning for shape = "closed"',
        ),
        ({"feet": {"tie": True}}, 'feet, tie: has no meaning for shape = "closed"'),
        ({"guides": {"height": "1200 mm"}}, "guides, height: 1200 mm puts the guides beyond the uprights"),
        ({"stops": {"height": "1070 mm"}}, "stops, height: 1070 mm puts the stops above the head"),
        ({"dial": [{"on": "head", "at": "800 mm"}]}, "dial, at: 800 mm is beyond the beam"),
        ({"head": ORCHARD["head"] | {"over": "690 mm"}}, "head, over: 690 mm reaches beyond an upright"),
    ],
)
def test_what_cannot_be_is_told_and_nothing_is_dropped(change, message):
    """A key without meaning, or a thing outside the frame, is one clear message."""
    with pytest.raises(InputError) as error:
        answer(ORCHARD | change, ORCHARD_JACK)
    assert str(error.value).splitlines()[0] == message


def test_an_offset_beyond_an_upright_is_told():
    """Half the span is 350 mm."""
    with pytest.raises(InputError, match="puts the load beyond an upright"):
        answer(ORCHARD, ORCHARD_JACK | {"offset": "350 mm"})


def test_an_offset_off_the_beam_is_told_once():
    """Not as a length spread over it too, less than nothing."""
    with pytest.raises(InputError) as error:
        answer(ORCHARD, ORCHARD_JACK | {"offset": "400 mm"})
    assert [problem.key for problem in error.value.problems] == ["offset"]
