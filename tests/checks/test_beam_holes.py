"""A beam with holes: what they leave of bending, stress, shear and fatigue."""

import pytest

from structcheck.checks.beam import BeamLoad
from structcheck.questions import ask, check_press
from tests.checks.test_beam import asked, beam


def test_holes_in_the_flange_weaken_bending_and_stress():
    """CS-16 (derived): two 22 mm holes are not ignorable; elastic stress rises by the net modulus."""
    loads = [BeamLoad(50e3, 1500.0)]
    whole, drilled = (
        asked(beam("IPE 300", "S355", 3000.0, **more), loads) for more in ({}, {"hole": 22.0, "holes": 2})
    )
    assert drilled["bending"].capacity.value < whole["bending"].capacity.value
    assert drilled["yield at greatest force"].utilisation > 1.15 * whole["yield at greatest force"].utilisation
    assert "plate with ordinary bolts" in drilled["fatigue"].reason


# EN 1993-1-9:2005 Table 8.1: 160 is for metal without holes, 90 for net sections, 50 beside ordinary bolts (memory).
@pytest.mark.parametrize(
    ("stated", "judged_as"),
    [
        ("rolled parent metal", "plate with ordinary bolts"),
        ("plate with holes", "plate with holes"),
        ("weld root", "weld root"),
        ("cover plate end", "cover plate end"),
    ],
)
def test_a_drilled_member_is_no_plain_metal_whatever_is_stated(stated, judged_as):
    """Its holes are judged unless the detail speaks of them, or is no better."""
    drilled = beam("IPE 300", "S355", 3000.0, hole=22.0, holes=2, detail=stated)
    assert judged_as in asked(drilled, [BeamLoad(50e3, 1500.0)])["fatigue"].reason


@pytest.mark.parametrize(("hole", "left"), [(40.0, 40.0), (60.0, 20.0)])
def test_a_hole_at_mid_depth_takes_its_share_of_the_shear(hole, left):
    """Derived: (80 - d) x 10 mm bear V; 6.2.6(7) (memory) leaves out fasteners' holes only, and 60 of 80 mm passed."""
    told = {"section": "FL 80x10", "steel": "S235", "span": "160 mm", "load": "80 kN", "hole_offset": "0 mm"}
    answer = ask("beam", told | {"hole": f"{hole:g} mm", "factor": 1.0})
    found = {f.check: f for f in answer.findings}
    assert found["shear"].capacity.value == pytest.approx(left * 10 * 235 / 3**0.5)


def test_a_hole_in_a_web_slender_in_shear_is_not_covered():
    """As the holes of a section of one's own are not."""
    own = {"name": "own", "shape": "welded i", "h": "300 mm", "b": "120 mm", "tw": "3 mm", "tf": "8 mm"}
    beam = {"name": "beam", "section": "own", "steel": "S355", "span": "900 mm", "load": "40 kN"}
    beam |= {"end_stiffeners": True, "pad": "80 mm", "hole": "100 mm", "hole_offset": "0 mm"}
    press = {"schema": 1, "title": "t", "jack": {"rating": "4 t"}, "section": [own], "beam": [beam]}
    found = {f.check: f.verdict for f in check_press(press).findings if f.part == "beam"}
    assert found["shear"] == found["bending and shear"] == "not checked"
