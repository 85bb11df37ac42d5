"""Beams on their side: bent about the weak axis, pressed on another face, in a question and in a frame."""

import tomllib
from pathlib import Path

import pytest

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.beam import Beam, BeamLoad, check_beam
from structcheck.checks.introduction import on_side
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.questions import ask, check_press
from structcheck.shapes.library import look_up

E, G = 210e3, 210e3 / 2.6
GLUING = tomllib.loads(
    (Path(__file__).resolve().parents[2] / "examples" / "gluing_press_as_drawn.toml").read_text(encoding="utf-8")
)


def lying(name, **more):
    section = look_up(name).section
    return Beam("b", section, find_steel("S235", route=section.route), span=700.0, turned=True, **more)


def asked(part, load=6e3):
    outcome = check_beam(part, [BeamLoad(load, 350.0)], Basis())
    return {f.check: f for f in outcome.findings}, {n.check: n.reason for n in outcome.does_not_apply}


@pytest.mark.parametrize("name", ["IPE 160", "UPN 160", "RHS 120x60x5", "FL 80x10"])
def test_a_beam_on_its_side_bends_about_its_weak_axis(name):
    """P L / 4 against W_z, P / 2 against A_v,y, and the deflection by I_z (by hand)."""
    part = lying(name, limit=5.0)
    found, never = asked(part)
    s = part.section
    assert found["bending"].capacity.value == pytest.approx(s.Wpl_z * 235)
    assert found["bending"].demand.value == pytest.approx(1.5 * 6e3 * 700 / 4)
    assert found["shear"].capacity.value == pytest.approx(s.Avy * 235 / 3**0.5)
    w = 6e3 * 700**3 / (48 * E * s.Iz) + 6e3 * 700 / (4 * G * s.Asy)
    assert found["deflection"].demand.value == pytest.approx(w)
    assert "lateral torsional buckling" in never and "torsion" not in found


def test_a_tube_on_its_side_is_pressed_on_its_broad_face():
    """RHS 120x60: the side walls are 60 deep and 120 apart, so the face bears less than it stands."""
    words = {"section": "RHS 120x60x5", "steel": "S235", "span": "700 mm", "load": "6 kN", "pad": "80 mm"}
    words |= {"bearing": "60 mm", "beyond": "40 mm", "quality": "JR"}
    upright, side = (
        {f.check: f for f in ask("beam", words | {"turned": turned}).findings}["tube face"] for turned in (False, True)
    )
    assert side.capacity.value < upright.capacity.value
    turned = on_side(look_up("RHS 120x60x5").section)
    assert (turned.Iy, turned.Iz) == pytest.approx(
        (look_up("RHS 120x60x5").section.Iz, look_up("RHS 120x60x5").section.Iy)
    )


def test_flanges_pressed_on_their_edges_are_no_pass():
    """Nor a plate across pieces that lie, in a question and in a frame."""
    head = GLUING["head"] | {"section": "IPE 160", "turned": True}
    lying_head = {"head": {k: v for k, v in head.items() if k != "stiffeners"}}
    result = check_press({k: v for k, v in (GLUING | lying_head).items() if k != "weld"})
    found = {f.check: f for f in result.findings if f.part == "head"}
    assert found["web under load"].verdict == "not checked" and "on its side" in found["web under load"].reason
    assert "lateral torsional buckling" not in found or found["lateral torsional buckling"].case != "ultimate"


def test_an_i_on_its_side_buckles_only_under_what_bends_it_the_strong_way():
    """In a frame the moment across counts, both adding up."""
    from structcheck.checks.basis import RATED
    from structcheck.checks.member_stress import Station

    part = lying("IPE 160")
    stations = [Station(ULTIMATE, "x", M_y=5e6, M_z=1e6), Station(RATED, "x", M_z=7e5)]
    outcome = check_beam(part, [BeamLoad(4e3, 350.0)], Basis(), inside=stations)
    found = {f.check: f for f in outcome.findings}["lateral torsional buckling"]
    assert found.utilisation > 1e6 / (part.section.Wpl_z * 235)
    assert found.demand.value == 5e6


def test_what_a_beam_on_its_side_cannot_have_is_refused():
    """Holes in a flange that no longer pulls; an angle, which has no such side."""
    for part, key in ((lying("IPE 160", hole=12.0), "hole"), (lying("L 80x80x8"), "turned")):
        with pytest.raises(InputError) as refused:
            asked(part)
        assert key in str(refused.value)
