"""Questions in which something easily overlooked decides: none of them may pass for lack of looking.

Values derived by hand beside each; the answers come from the whole chain, as a user gets them.
"""

import json
import shlex

import pytest


def _ask(run, command):
    status, out, err = run(*shlex.split(command), "--json")
    return status, json.loads(out), err


def _finding(data, check):
    return next(f for f in data["findings"] if f["check"] == check)


IPE = 'beam --section "IPE 200" --steel S275 --quality JR --static '


def test_corrosion_reaches_the_web(run):
    """1 mm off every face of IPE 200 leaves a web of 3.6 mm: F_Rd falls from 291 kN to about 119 kN (derived)."""
    rest = '--span "600 mm" --load "90 kN" --pad "100 mm" --bearing "100 mm" --beyond "20 mm"'
    _, whole, _ = _ask(run, IPE + rest)
    status, thin, _ = _ask(run, IPE + rest + ' --corrosion "1 mm"')
    assert _finding(whole, "web under load")["capacity"]["value"] == pytest.approx(291, rel=0.01)
    assert _finding(thin, "web under load")["capacity"]["value"] == pytest.approx(119, rel=0.01)
    assert status == 1


def test_corrosion_does_not_help_against_brittle_fracture(run):
    """The thickness is that of the steel as bought."""
    rest = '--span "600 mm" --load "40 kN" --pad "100 mm" --bearing "100 mm"'
    _, thin, _ = _ask(run, IPE + rest + ' --corrosion "1 mm"')
    assert _finding(thin, "brittle fracture")["demand"]["value"] == pytest.approx(8.5)


def test_a_pull_beside_the_middle_of_the_bolts_pulls_one_harder(run):
    """Two bolts 80 mm apart, pull 50 mm beside their middle: one takes 1.125 of it (statics)."""
    base = (
        'bolts --size M16 --class 8.8 --rows 1 --columns 2 --gauge "80 mm" --end "40 mm" --edge "40 mm" '
        '--plate "10 mm" --steel S275 --tension "25 kN" --lever "38 mm"'
    )
    _, central, _ = _ask(run, base)
    status, beside, _ = _ask(run, base + ' --eccentricity "50 mm"')
    ratio = _finding(beside, "bolt tension")["utilisation"] / _finding(central, "bolt tension")["utilisation"]
    assert ratio == pytest.approx(1.125 / 0.5, rel=1e-6)
    assert status == 1


def test_a_hole_to_one_side_bends_the_flat(run):
    """N / A_net + N e / W_net = 161 + 124 MPa: FL 80x10, an 18 mm hole 25 mm off its middle, at 1.25 x 80 kN."""
    command = (
        'upright --section "FL 80x10" --steel S235 --length "950 mm" --pull "80 kN" --hole "18 mm" '
        '--hole-offset "25 mm" --quality JR --static'
    )
    status, data, _ = _ask(run, command)
    assert _finding(data, "yield at greatest force")["demand"]["value"] == pytest.approx(285, rel=0.01)
    assert status == 1


def test_a_hole_beyond_the_edge_is_refused(run):
    """It would leave more section than there is."""
    command = 'upright --section "SHS 80x80x4" --steel S275 --length "900 mm" --pull "60 kN" --hole "12 mm"'
    assert _ask(run, command + ' --hole-offset "500 mm"')[0] == 2


def test_holes_in_the_flange_weaken_a_beam_that_buckles(run):
    """EN 1993-1-1 6.3.2.1(4) lets holes at the ends be ignored, not those at mid-span."""
    base = IPE + '--span "2 m" --load "60 kN" --pad "100 mm" --bearing "80 mm"'
    _, whole, _ = _ask(run, base)
    status, holed, _ = _ask(run, base + ' --hole "18 mm" --holes 2')
    check = "lateral torsional buckling"
    assert _finding(holed, check)["capacity"]["value"] < _finding(whole, check)["capacity"]["value"]
    assert status == 1


def test_an_angle_held_by_one_leg_is_not_passed(run):
    """Unless somebody confirms that the pull runs through its centroid (EN 1993-1-1 6.2.3(5))."""
    command = 'upright --section "L 60x60x6" --steel S275 --length "950 mm" --pull "50 kN" --quality JR --static'
    status, data, _ = _ask(run, command)
    assert (status, data["verdict"]) == (3, "holds if")
    assert "centroid" in data["conditions"][0]


def test_a_valve_below_the_rating_does_not_save_a_bar_from_yield(run, tmp_path):
    """RD 50, 500 mm, 36 kN: 367 MPa at the rated force, whatever the valve (W = pi 50^3 / 32)."""
    file = tmp_path / "p.toml"
    file.write_text(
        'schema=1\n[jack]\nrating="36 kN"\nrelief="10 kN"\n[use]\nstatic=true\n'
        '[[beam]]\nname="b"\nsection="RD 50"\nsteel="S355"\nspan="500 mm"\nload=1.0\n',
        encoding="utf-8",
    )
    status, data, _ = _ask(run, f"check {shlex.quote(str(file))}")
    assert _finding(data, "yield at greatest force")["demand"]["value"] == pytest.approx(366.7, rel=0.01)
    assert status == 1


def test_a_round_pad_presses_less_wall_than_a_square_one(run):
    """pi / 4 of EN 1993-1-8 Table 7.11."""
    base = (
        'beam --section "SHS 100x100x5" --steel S275 --span "400 mm" --load "10 kN" --pad "100 mm" '
        '--bearing "100 mm" --beyond "100 mm" --quality JR --static'
    )
    _, round_pad, _ = _ask(run, base)
    _, square, _ = _ask(run, base + ' --pad-across "100 mm"')
    assert (
        _finding(round_pad, "tube face")["capacity"]["value"] < 0.9 * _finding(square, "tube face")["capacity"]["value"]
    )


@pytest.mark.parametrize(
    "command",
    [
        'beam --section "IPE 200" --steel S275 --span "2 m" --load "0 kN"',
        'weld --throat "4 mm" --length "100 mm" --runs 2 --steel S275 --along "0 kN" --inspected',
        'bolts --size M16 --class 8.8 --rows 1 --columns 1 --plate "10 mm" --steel S275 --shear "0 kN"',
        'beam --section "IPE 200" --steel S275 --span "2 m" --load "10 kN/m" --at "500 mm"',
        'spring --wire "6 mm" --mean "42 mm" --active 36 --turns 36 --ends ground --grade SM --free "515 mm" '
        '--fitted "420 mm" --pressed "270 mm" --count 2 --lifts "25 kg"',
    ],
)
def test_a_question_about_nothing_or_against_itself_is_refused(command, run):
    """No load, a place for a load that has none, ground ends without a coil to grind."""
    assert _ask(run, command)[0] == 2


def test_a_load_on_a_support_bends_nothing(run):
    """And is no division by nothing: the moment checks do not apply."""
    _, data, _ = _ask(run, IPE + '--span "2 m" --load "60 kN" --at "0 mm" --pad "100 mm" --bearing "100 mm"')
    never = {n["check"] for n in data["does not apply"]}
    assert {"bending", "lateral torsional buckling"} <= never


def test_a_weld_stronger_than_its_plate_does_not_save_the_plate(run):
    """A part of 4 mm under two fillets of 4 mm: 350 kN / (4 x 300) = 292 MPa at the greatest force."""
    command = (
        'weld --throat "4 mm" --length "300 mm" --runs 2 --steel S275 --across "280 kN" --inspected '
        '--thickness "4 mm" --thickest "10 mm"'
    )
    status, data, _ = _ask(run, command)
    assert _finding(data, "yield at greatest force")["demand"]["value"] == pytest.approx(350e3 / 1200, rel=1e-6)
    assert _finding(data, "weld throat")["verdict"] == "holds"
    assert status == 1


def test_a_thin_platen_is_pushed_through_by_its_saddle(run, tmp_path):
    """15 mm between a saddle of 38 mm and cloths over 400 x 400: about 690 MPa, not the 197 of the cloths alone."""
    from pathlib import Path

    text = (Path(__file__).resolve().parents[2] / "examples" / "orchard_press.toml").read_text(encoding="utf-8")
    file = tmp_path / "thin.toml"
    file.write_text(text.replace('thickness = "40 mm"', 'thickness = "15 mm"'), encoding="utf-8")
    _, data, _ = _ask(run, f"check {shlex.quote(str(file))}")
    finding = next(f for f in data["findings"] if (f["part"], f["check"]) == ("platen", "yield at greatest force"))
    assert finding["demand"]["value"] == pytest.approx(693, rel=0.02)  # a round plate of the same area


def test_a_pushed_upright_is_not_passed_for_its_section_alone(run):
    """It buckles, with both moments; a pull beside a push is refused (load factor 1.5)."""
    base = 'upright --section "SHS 60x60x4" --steel S235 --length "950 mm" --quality JR '
    status, data, _ = _ask(run, base + '--push "20 kN" --moment "0.3 kN m" --moment-across "0.2 kN m"')
    assert (status, data["verdict"]) == (3, "holds if")
    assert _finding(data, "flexural buckling")["demand"]["value"] == pytest.approx(30.0)
    assert _finding(data, "buckling with bending")["utilisation"] > _finding(data, "axial and bending")["utilisation"]
    status, _, errors = run(*shlex.split(base + '--push "20 kN" --pull "1 kN"'))
    assert status == 2 and "stands beside pull" in errors
