"""Looking up by what people write."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structcheck.errors import UnknownName
from structcheck.shapes.library import library, look_up, matching
from structcheck.shapes.section import Section

COLD_ASSUMED = "hollow section not labelled cold or hot: taken as cold formed (EN 10219-2)"


@pytest.mark.parametrize(
    ("text", "designation"),
    [
        ("shs 100x100x5", "SHS 100x100x5"),
        ("SHS100*100*5", "SHS 100x100x5"),
        ("100x100x5 SHS", "SHS 100x100x5"),
        ("SHS 100×100×5", "SHS 100x100x5"),
        ("SHS 100 x 100 x 5 mm", "SHS 100x100x5"),
        ("SHS 100x100x5.0", "SHS 100x100x5"),
        ("SHS 100x5", "SHS 100x100x5"),
        ("SHS 100x100x5 hot", "SHS 100x100x5 hot"),
        ("hot finished SHS 100x100x5", "SHS 100x100x5 hot"),
        ("RHS 60x100x4", "RHS 100x60x4"),
        ("chs 60.3 x 2.9", "CHS 60.3x2.9"),
        ("IPE 160", "IPE 160"),
        ("IPE160", "IPE 160"),
        ("ipe-160", "IPE 160"),
        ("HE 200 B", "HEB 200"),
        ("heb200", "HEB 200"),
        ("UPN 120", "UPN 120"),
        ("UNP120", "UPN 120"),
        ("FL 80x10", "FL 80x10"),
        ("flat 80x10", "FL 80x10"),
        ("80x10 flat", "FL 80x10"),
        ("flat bar 80 x 10 mm", "FL 80x10"),
        ("L 50x5", "L 50x50x5"),
        ("L50x50x5", "L 50x50x5"),
        ("round 20", "RD 20"),
        ("SQ 20x20", "SQ 20"),
        ("PL 10", "PL 10"),
        ("W8X18", "W8X18"),
        ("w 8 x 18", "W8X18"),
        ("HSS4X4X1/4", "HSS4X4X1/4"),
        ("hss 4x4x0.25", "HSS4X4X1/4"),
        ("C10X15.3", "C10X15.3"),
    ],
)
def test_a_section_is_found_however_it_is_spelt(text, designation):
    """Case, spaces, signs and order are forgiven."""
    assert look_up(text).section.designation == designation


def test_every_designation_finds_itself():
    """Each row of the library is found by its own name."""
    for section in library():
        assert look_up(section.designation).section is section


def test_an_unlabelled_tube_is_cold_formed_and_says_so():
    """Without a label the weaker one is taken; labelled, nothing is assumed."""
    assert look_up("SHS 100x100x5").assumptions == (COLD_ASSUMED,)
    assert look_up("CHS 60.3x2.9").assumptions == (COLD_ASSUMED,)
    assert look_up("SHS 100x100x5 cold formed").assumptions == ()
    assert look_up("SHS 100x100x5 hot").assumptions == ()
    assert look_up("IPE 160").assumptions == ()


def test_a_tube_listed_hot_only_is_not_taken_for_cold():
    """Unlabelled it is refused, and the hot one is the first offered."""
    with pytest.raises(UnknownName) as caught:
        look_up("SHS 40x40x3.2")
    assert caught.value.problems[0].remedy.startswith('"SHS 40x40x3.2 hot"')


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("SHS 101x101x5", '"SHS 100x100x5" or "SHS 100x100x5 hot" or "SHS 100x100x6"'),
        ("IPE 170", '"IPE 180" or "IPE 160" or "IPE 200"'),
        ("FL 82x10", '"FL 80x10" or "FL 90x10" or "FL 70x10"'),
        ("ipx 160", '"IPE 160"'),
    ],
)
def test_an_unknown_size_offers_the_nearest_three(text, remedy):
    """By dimensions within the family, by spelling where the family is unknown."""
    with pytest.raises(UnknownName) as caught:
        look_up(text)
    problem = caught.value.problems[0]
    assert problem.remedy.startswith(remedy)
    assert problem.remedy.count(" or ") == 2
    assert problem.given == f'"{text}"'


def test_a_size_no_list_holds_is_not_made_up():
    """A flat, bar or plate of any other size is refused like every unknown."""
    for text in ("FL 83x11", "RD 21.5", "PL 11", "SQ 23"):
        with pytest.raises(UnknownName, match="is in no list of sizes"):
            look_up(text)


def test_the_user_s_own_rows_come_first():
    """An own section is found by its name, and before a library row of the same name."""
    own = Section("Bed box", "", "own", "welded", {"h": 300.0})
    twin = Section("IPE 160", "IPE", "yard", "rolled", {"h": 161.0, "b": 82.0, "tw": 5.0, "tf": 7.4, "r": 9.0}, "own")
    assert look_up("bed-box", [own]).section is own
    assert look_up("ipe160", [own, twin]).section is twin
    assert look_up("IPE 180", [own, twin]).section.provenance == "read"


@pytest.mark.parametrize(
    "text", ["", "  ", "x" * 61, None, 160, "SHS 1/0x3", "\x00", "🙂", "()[]*?", "SHS", "١٠٠", "nan", "SHS " + "9" * 50]
)
def test_junk_is_refused_in_words(text):
    """No text crashes the look-up; the error is the user's kind."""
    with pytest.raises(UnknownName):
        look_up(text)


@given(st.text(max_size=80))
def test_any_text_is_found_or_refused(text):
    """Nothing but a section or UnknownName comes back, and patterns never fail but by length."""
    for ask in (look_up, matching):
        try:
            ask(text)
        except UnknownName as error:
            assert str(error)


@given(st.sampled_from(["SHS", "RHS 100", "IPE", "HSS4", "flat", "L"]), st.text("0123456789x./* ", max_size=20))
def test_a_family_with_any_numbers_is_found_or_refused(family, rest):
    """Half-right names neither crash nor guess."""
    try:
        assert look_up(f"{family} {rest}").section.properties()
    except UnknownName as error:
        assert "try:" in str(error)


def test_patterns_list_what_they_match():
    """Case and spaces are forgiven; * and ? stand for any signs; a bare start matches its family."""
    found = [section.designation for section in matching("rhs 1*")]
    assert found
    assert all(name.startswith("RHS 1") for name in found)
    assert [section.designation for section in matching("IPE ?0")] == ["IPE 80"]
    assert len(matching("upn")) == 12
    assert [section.designation for section in matching("*100x100x5*")] == ["SHS 100x100x5", "SHS 100x100x5 hot"]
    assert matching("nothing*") == []
