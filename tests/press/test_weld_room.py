"""Welds at places of a frame have no more room than the members that meet there."""

import math
import tomllib

import pytest

from structcheck.checks.weld_outline import fillets_on, ring_round
from structcheck.errors import InputError
from structcheck.questions import ask, check_press
from structcheck.shapes.library import look_up
from tests.press.joints_given import BUTT, GROUP, ROOT, found, gluing, runs

SHS = {"section": "SHS 60x60x5 cold", "steel": "S235"}
WELD = {"name": "w", "at": ["head/left", "head/right"], "steel": "S235", "inspected": True, "joint": "end plate"}
AROUND = {"throat": "4 mm", "length": "225 mm", "around": True}


def tubes(**weld):
    """The gluing press with a head of SHS 60 that stands on its uprights by a weld."""
    return check_press(gluing(head=SHS, weld=[WELD | weld]))


@pytest.mark.parametrize(
    ("weld", "words"),
    [
        ({"throat": "4 mm", "length": "900 mm"}, "is longer than SHS 60x60x5 has room for there, 60 mm"),
        ({"throat": "4 mm", "length": "900 mm", "around": True}, "is not the way round SHS 60x60x5, 222.8 mm"),
        ({"throat": "4 mm", "length": "60 mm", "around": True}, "is not the way round SHS 60x60x5, 222.8 mm"),
        ({"throat": "4 mm", "length": "60 mm", "runs": 5, "spacing": "10 mm"}, "more than SHS 60x60x5 has sides for"),
        ({"throat": "4 mm", "length": "60 mm", "runs": 2, "spacing": "300 mm"}, "puts runs 300 mm apart, beside"),
        ({"throat": "12 mm", "length": "60 mm"}, "throat: 12 mm is a throat above what a part 5 mm thick takes"),
        ({"leg": "18 mm", "length": "60 mm"}, "leg: 12.6 mm is a throat above what a part 5 mm thick takes"),
        ({"throat": "4 mm", "length": "60 mm", "thickness": "9 mm"}, "is more than the wall of 5 mm"),
        ({"throat": "4 mm", "length": "60 mm", "around": True, "gusset": True}, "cannot stand beside"),
    ],
)
def test_more_weld_than_there_is_member_is_refused(weld, words):
    """Length, sides, width and wall of a tube's end; the outline with its corners of 10 mm is 222.8 mm (derived)."""
    assert 4 * 60 - (8 - 2 * math.pi) * 10 == pytest.approx(222.8, abs=0.05)
    with pytest.raises(InputError) as caught:
        tubes(**weld)
    assert words in str(caught.value) and 'weld "w"' in str(caught.value)


def test_the_web_of_an_i_is_welded_between_its_flanges():
    """IPE 160: 160 - 2 x 7.4 = 145.2 mm; 145 is taken, 150 refused."""
    weld = WELD | {"throat": "3 mm", "runs": 2, "spacing": "5 mm"}
    check_press(gluing(weld=[weld | {"length": "145 mm"}]))
    with pytest.raises(InputError, match=r"at most 145\.2 mm"):
        check_press(gluing(weld=[weld | {"length": "150 mm"}]))


def test_a_gusset_may_be_longer_and_is_a_condition():
    """It is in no table, so the verdict rests on it."""
    result = tubes(throat="4 mm", length="300 mm", runs=2, spacing="10 mm", gusset=True)
    assert any("gusset, haunch or cleat of w" in one.condition for one in result.conditions)
    assert not any("gusset" in one.condition for one in tubes(**AROUND).conditions)


def test_a_gusset_without_a_place_is_refused():
    """Nothing is compared there."""
    for kind, given in (
        ("weld", {"throat": "4 mm", "length": "90 mm", "along": "1 kN", "steel": "S235"}),
        ("weld_group", GROUP | {"force": "1 kN"}),
    ):
        with pytest.raises(InputError, match="means nothing without `at`"):
            ask(kind, given | {"gusset": True})


def test_a_run_all_round_is_a_ring_and_no_line():
    """As one line of 225 mm it would bear twice the moment: a L^2 / 6 against a (b d + d^2 / 3) of a square ring."""
    ring = found(tubes(**AROUND), "w")["weld throat"]
    sides = [(-30, -30, -30, 30), (30, -30, 30, 30), (-30, 30, 30, 30), (-30, -30, 30, -30)]
    drawn = [
        {"start": ["0 mm", f"{y} mm", f"{z} mm"], "end": ["0 mm", f"{y_2} mm", f"{z_2} mm"], "throat": "4 mm"}
        | {"sides": "around", "returned": True}
        for y, z, y_2, z_2 in sides
    ]
    sharp = found(check_press(gluing(head=SHS, weld_group=[WELD | {"runs": drawn}])), "w")["weld throat"]
    assert sharp.utilisation * 0.95 < ring.utilisation < sharp.utilisation * 1.25


def test_two_runs_on_a_tube_open_at_their_roots():
    """4.12 spares a run round the whole of a hollow section only: two of its sides are two runs alone."""
    sides = found(tubes(throat="4 mm", length="60 mm", runs=2, spacing="60 mm"), "w")["weld throat"]
    ring = found(tubes(**AROUND), "w")["weld throat"]
    assert sides.utilisation > 4 * ring.utilisation


def test_one_run_for_each_of_two_pieces_is_alone():
    """Two channels with a fillet each: a pair of runs, and no pair on one piece; with four each has its partner."""
    bearing = tomllib.loads((ROOT / "examples" / "bearing_press.toml").read_text(encoding="utf-8"))
    weld = bearing["weld"][0] | {"steel": "S235", "inspected": True}
    silent = {key: value for key, value in weld.items() if key != "one_sided"}

    def used(given):
        return found(check_press(bearing | {"weld": [given]}), weld["name"])["weld throat"].utilisation

    assert used(silent) == pytest.approx(used(weld))
    assert used(silent | {"runs": 4, "spacing": "27 mm"}) < used(silent) / 3


def test_cold_formed_tubes_are_a_condition_wherever_they_are_welded():
    """4.14: SHS 60x60x5 cold, r = t, more than 4 mm (Table 4.2, memory), until it is of killed steel."""

    def conditions(head=SHS, **kinds):
        found = check_press(gluing(head=head, uprights={"section": "HEA 140", "steel": "S235"}, **kinds)).conditions
        return [a.condition for a in found if "killed" in a.condition]

    ring = [{"start": ["0 mm", "-30 mm", "-30 mm"], "end": ["0 mm", "-30 mm", "30 mm"], "throat": "4 mm"}]
    for kind, given in (
        ("weld", WELD | AROUND),
        ("weld_group", WELD | {"runs": ring}),
        ("butt", BUTT | {"at": ["head/left"], "thickness": "5 mm", "length": "40 mm"}),
    ):
        assert conditions(**{kind: [given]}) == ["SHS 60x60x5 is of aluminium-killed steel, J2H or K2H"], kind
        assert conditions(**{kind: [given | {"killed": True}]}) == []
    assert conditions(SHS | {"section": "SHS 60x60x4 cold"}, weld=[WELD | AROUND | {"length": "230 mm"}]) == []
    run = "0 -30 -30 to 0 -30 30 mm, throat 4 mm, sides around"
    asked = {"steel": "S235", "force": "1 kN", "runs": [run], "inspected": True}
    assert ask("weld_group", asked).verdict == "holds if"
    assert ask("weld_group", asked | {"killed": True}).verdict == "holds"


def test_an_i_is_not_welded_all_round_by_one_run():
    """Not checked: its outline is asked as a weld group."""
    weld = WELD | {"throat": "3 mm", "length": "600 mm", "around": True}
    checks = found(check_press(gluing(weld=[weld])), "w").values()
    assert {f.verdict for f in checks} == {"not checked"} and "and not round IPE 160" in next(iter(checks)).reason


def test_the_wall_of_the_frame_is_the_one_that_cracks_at_the_toe():
    """Web of 5 mm: 2 x 3 / 5 of the throat's range at category 40, worse than the root's 36 (1993-1-9, memory)."""
    result = check_press(gluing(weld=[WELD | {"throat": "3 mm", "length": "120 mm", "runs": 2, "spacing": "5 mm"}]))
    assert found(result, "w")["fatigue"].reason.startswith("cruciform toe")
    assert "thickness not stated: 5 mm, the thinnest wall the frame has there" in [a.text for a in result.assumptions]


# ---- groups -----------------------------------------------------------------------------------


def group(*written, **more):
    return check_press(gluing(weld_group=[GROUP | {"at": ["head/left"], "joint": "end plate"} | more]))


@pytest.mark.parametrize(
    ("drawn", "words"),
    [
        (runs(-2.5, 2.5, half=300.0), "runs 1: goes out to 300 mm along z, where IPE 160 offers 80 mm"),
        (runs(-2.5, 200.0), "runs 2: goes out to 200 mm along y, where IPE 160 offers 41 mm"),
        (runs(*range(-36, 41, 8), half=75.0), "long together, and the outline of IPE 160"),
        ([*runs(2.5), *runs(2.5)], "runs 2: lies where run 1 does"),
        (runs(-2.5, 2.5, throat="12 mm"), "is a throat above what a part 5 mm thick takes"),
    ],
)
def test_a_group_stays_on_the_member(drawn, words):
    """Points, all lengths together, runs written twice, throats on the wall they stand on."""
    with pytest.raises(InputError) as caught:
        group(runs=drawn)
    assert words in str(caught.value)


def test_each_run_stands_on_its_own_wall():
    """Flange 7.4 mm and web 5 mm of an IPE 160, printed; on a gusset nothing is known and nothing taken."""
    flange = {"start": ["0 mm", "-41 mm", "80 mm"], "end": ["0 mm", "41 mm", "80 mm"], "throat": "6 mm"}
    result = group(runs=[*runs(-2.5, 2.5), flange | {"sides": "both"}])
    text = "runs whose plate is not stated stand on walls of 5 and 7.4 mm, as the frame has them"
    assert text in [a.text for a in result.assumptions]
    on = group(runs=runs(-2.5, 2.5, half=300.0), gusset=True)
    assert any("at least" in a.text and "starts at a toe" in a.text for a in on.assumptions if a.part == "fillets")


def test_a_butt_weld_is_no_longer_and_no_thicker_than_the_beam():
    """Web of the IPE 160: 5 x 145 mm."""
    for change, words in ({"length": "500 mm"}, "at most 145.2"), ({"thickness": "10 mm"}, "what IPE 160 has there"):
        with pytest.raises(InputError, match=words):
            check_press(gluing(butt=[BUTT | {"at": ["head/left"], "thickness": "5 mm"} | change]))
    check_press(gluing(butt=[BUTT | {"at": ["head/left"], "thickness": "5 mm"}]))


def test_every_example_has_room_for_its_welds():
    """None is refused, and none rests on a gusset."""
    for path in sorted((ROOT / "examples").glob("*.toml")):
        result = check_press(tomllib.loads(path.read_text(encoding="utf-8")))
        assert not any("gusset" in one.condition for one in result.conditions), path.name


# ---- outlines ---------------------------------------------------------------------------------


def length(made):
    return sum(run.whole.length for run in made)


@pytest.mark.parametrize("name", ["SHS 60x60x5 cold", "CHS 60.3x4", "FL 80x10", "RHS 100x60x5 cold"])
@pytest.mark.parametrize("turned", [False, True])
def test_a_ring_is_the_outline(name, turned):
    """Closed, no longer than the outline and at most 4 % shorter, as wide and as deep as the section."""
    section = look_up(name).section
    ring = ring_round(section, turned, throat=3.0)
    outline = section.outline()[0]
    true = sum(math.dist(a, b) for a, b in zip(outline, [*outline[1:], outline[0]], strict=True))
    assert 0.96 * true < length(ring) <= true * 1.0005
    ends = [spot for run in ring for spot in run.whole.stations()[0]]
    wide, deep = (2 * max(spot[axis] for spot in ends) for axis in (1, 2))
    left, right, bottom, top = section.edges
    assert {round(wide, 3), round(deep, 3)} == {round(right - left, 3), round(top - bottom, 3)}
    assert wide == pytest.approx(top - bottom if turned else right - left)


def test_fillets_follow_every_wall():
    """IPE 160: two flanges of 82 on both sides less the root, a web of 127.2 on both (derived); UPN 120 likewise."""
    ipe, upn = (look_up(name).section for name in ("IPE 160", "UPN 120"))
    root = 5.0 + 2 * 9.0
    assert length(fillets_on(ipe, throat=3.0)) == pytest.approx(2 * 82 + 2 * (82 - root) + 2 * 127.2)
    s = upn.shape
    inner = 2 * (s.b - s.tw - s.r1)
    assert length(fillets_on(upn, throat=3.0)) == pytest.approx(2 * s.b + inner + s.h + s.h - 2 * (s.tf + s.r1))
