"""Members of a free frame that the jack presses between their ends: what they do besides, as beams."""

import copy
import re
import tomllib
from pathlib import Path

import pytest

from structcheck.questions import check_beam, check_press

EXAMPLES = Path(__file__).parents[2] / "examples"
TILE = tomllib.loads((EXAMPLES / "tile_press_of_members.toml").read_text())
ORCHARD = tomllib.loads((EXAMPLES / "orchard_press.toml").read_text())


def on_channels(section="UPN 200", pieces=1, across="0 mm", **more):
    """Findings, by part and check, of the tile press with head and bar of channels; the jack in the middle."""
    press = copy.deepcopy(TILE)
    press["jack"] |= {"offset": "0 mm", "offset_across": across}
    for row in press["member"]:
        if row["name"] in ("head", "bar"):
            for key in ("hole", "holes", "hole_offset", *(("apart", "spreader") if pieces == 1 else ())):
                row.pop(key, None)
            row |= {"section": section, "pieces": pieces} | more
    return {(f.part, f.check): f for f in check_press(press).findings}


@pytest.mark.parametrize("name", ["head", "bar"])
def test_a_channel_pressed_on_its_web_twists_as_the_beam_of_its_span(name):
    """EN 1993-1-1 6.2.7 (memory): the force stands beside the shear centre; no torsion was judged: 0.38."""
    beam = check_beam(section="UPN 200", steel="S235", span="700 mm", load="5 t", factor=1.5, pad="80 mm")
    alone = {f.check: f for f in beam.findings}
    found = on_channels()
    for check in ("torsion", "yield at greatest force"):
        # The greatest force is 1.1 times the rated one in the press, 1.25 times in the question.
        share = 1.1 / 1.25 if check == "yield at greatest force" else 1.0
        assert found[name, check].utilisation == pytest.approx(share * alone[check].utilisation, rel=1e-6)
    assert found[name, "lateral torsional buckling"].utilisation >= alone["lateral torsional buckling"].utilisation


def test_pieces_tied_together_do_not_twist():
    """The user's word, as for the head of any frame."""
    assert ("head", "torsion") in on_channels(pieces=2)
    assert ("head", "torsion") not in on_channels(pieces=2, tied=True)


def test_a_pressed_member_buckles_sideways_with_the_force_on_its_flange():
    """The M_cr of a uniform moment at mid-depth is not the least for a short I with its load on the flange."""
    beam = check_beam(section="IPE 200", steel="S235", span="700 mm", load="5 t", factor=1.5, pad="80 mm")
    alone = next(f for f in beam.findings if f.check == "lateral torsional buckling")
    found = on_channels("IPE 200")["head", "lateral torsional buckling"]
    assert found.capacity.value == pytest.approx(alone.capacity.value, rel=1e-6)


def warping_of_the_head(across, tied):
    """Stress of the bimoment, MPa, in the head of two channels in the orchard press."""
    press = copy.deepcopy(ORCHARD)
    press["jack"]["offset_across"] = across
    press["head"]["tied"] = tied
    found = {f.check: f for f in check_press(press).findings if f.part == "head"}
    return float(re.search(r"(\d+) MPa of it warping", found["torsion"].reason).group(1))


def test_a_force_off_the_plane_twists_what_twists_already():
    """Derived: bimoments add. Untied channels took the worse of the webs' distance and of the jack's, never both."""
    webs, jack = warping_of_the_head("0 mm", tied=False), warping_of_the_head("15 mm", tied=True)
    assert warping_of_the_head("15 mm", tied=False) == pytest.approx(webs + jack, abs=1.5)


def test_a_force_off_the_plane_of_a_free_frame_too():
    """The tile press with one channel: 24.4 mm from the web to the shear centre, and 10 mm more."""
    straight, aside = (on_channels(across=across)["head", "torsion"].reason for across in ("0 mm", "10 mm"))
    one, two = (float(re.search(r"(\d+) MPa of it warping", text).group(1)) for text in (straight, aside))
    assert two / one == pytest.approx(34.37 / 24.37, rel=0.02)
