"""What the drawings say, against statics and closed forms worked out here."""

import html
import math
import re

import pytest

from structcheck.report.page import page
from tests.report.conftest import EXAMPLES

G_0 = 9.80665
SPACE = (
    'schema = 1\ntitle = "Space"\n[jack]\nrating = "2 t"\nrelief = "2 t"\n[frame]\nshape = "members"\n'
    '[[node]]\nname = "A"\nx = "0 mm"\nz = "0 mm"\n[[node]]\nname = "B"\nx = "400 mm"\ny = "300 mm"\nz = "0 mm"\n'
    '[[node]]\nname = "C"\nx = "0 mm"\nz = "500 mm"\n'
    '[[member]]\nname = "foot"\nstart = "A"\nend = "B"\nsection = "SHS 80x80x5 cold"\nsteel = "S235"\n'
    'at_start = "rigid"\nat_end = "rigid"\n'
    '[[member]]\nname = "tie"\nstart = "A"\nend = "C"\nsection = "SHS 80x80x5 cold"\nsteel = "S235"\n'
    'at_start = "rigid"\nat_end = "rigid"\n'
    '[[support]]\nnode = "A"\nholds = "x y z rx ry rz"\n[[push]]\nstart = "A"\nend = "C"\n'
)


def _figures(text):
    """Title -> texts drawn in it, of every drawing of a page."""
    found = {}
    for drawing in re.findall(r"<svg.*?</svg>", text, re.DOTALL):
        title = html.unescape(re.search(r"<title[^>]*>(.*?)</title>", drawing, re.DOTALL)[1])
        found[title] = [html.unescape(t) for t in re.findall(r"<text[^>]*>(.*?)</text>", drawing, re.DOTALL)]
    return found


def _of(pages, name):
    return _figures(pages[name][0].read_text(encoding="utf-8"))


def _one(figures, start):
    found = [(title, texts) for title, texts in figures.items() if title.startswith(start)]
    assert len(found) == 1, list(figures)
    return found[0]


# Winkler and Bach; r_n of a rectangle is its depth over ln(outer / inner) (derived).
def test_the_stress_in_the_throat_is_that_of_a_curved_bar(pages):
    """3 t and the frame's weight at 1.5, 8 mm further out than the die; back 180 x 30, inner radius 60, reach 120."""
    _, texts = _one(_of(pages, "eyelet_press_c_frame"), "Stress across")
    b, t, r, reach = 180.0, 30.0, 60.0, 120.0 + 8.0
    weight = 7.85e-6 * t * (b * 600 + 2 * (120 + 40) * 170)  # the arms go on 40 mm past the force
    F = 1.5 * (3000 + weight) * G_0
    r_n, r_c = b / math.log((r + b) / r), r + b / 2
    M = F * (reach + b / 2)
    inner, outer = (F / (b * t) + M * (r_n - at) / (b * t * (r_c - r_n) * at) for at in (r, r + b))
    assert f"{inner:.4g} MPa" in texts
    assert f"{outer:.4g} MPa".replace("-", "\N{MINUS SIGN}") in texts or f"{outer:.4g} MPa" in texts
    assert f"{r_n - r:.4g}" in texts


# Statics: a C-frame's back carries F and F times its lever, its arms F (derived).
def test_the_diagrams_of_a_c_frame_follow_from_statics(pages):
    """At rated force, the arms counted to the back's centre-line."""
    figures = _of(pages, "eyelet_press_c_frame")
    F, lever = 3000 * G_0 / 1e3, 0.120 + 0.090
    assert f"{F:.3g}" in _one(figures, "Greatest axial force")[1]
    assert f"{F:.3g}" in _one(figures, "Greatest shear")[1]
    assert f"{F * lever:.3g}" in _one(figures, "Greatest moment")[1]


# Statics: F L / 4 of a beam on two supports (derived).
@pytest.mark.parametrize(
    ("name", "state", "tonnes", "span"),
    [
        ("bookbinders_press", "all corners loose", 3.0, 0.500),
        ("orchard_press", "all corners loose", 8.0, 0.700),
        ("tile_press_of_members", "all unknown joints loose", 5.0, 0.700),
    ],
)
def test_with_loose_ends_the_moment_is_that_of_a_simple_beam(name, state, tonnes, span, pages):
    """In the middle, under the rated force."""
    _, texts = _one(_of(pages, name), f"{state}: greatest moment")
    assert f"{tonnes * G_0 * span / 4:.3g}" in texts


def test_an_o_frame_is_drawn_with_its_measures_and_every_use(pages):
    """Window, opening, depths, radius; four sides and four corners with their highest use."""
    result = pages["seal_press_o_frame"][1].result
    title, texts = _one(_of(pages, "seal_press_o_frame"), "Plate frame")
    assert {"window 300", "opening 360", "170", "side 110", "R 40"} <= set(texts)
    parts = {f.part for f in result.findings if f.part.endswith("corner")} | {"head", "bed", "left upright"}
    assert len(parts) == 7
    assert all(f"{part} " in title for part in parts)


def test_a_frame_of_nodes_is_drawn_with_its_heights_and_every_member(pages):
    """Heights between nodes in a chain; every member and every node named."""
    title, texts = _one(_of(pages, "tile_press_of_members"), "Frame of 6 nodes and 6 members")
    assert {"400", "680", "900", *"ABCEFH"} <= set(texts)
    assert all(name in title for name in ("left leg", "right leg", "bar", "head", "left post"))


def test_a_frame_in_no_plane_is_seen_slantwise():
    """No dimensions, which would be foreshortened."""
    text = page(SPACE, "press.toml", date="2025-01-31").html
    _, texts = _one(_figures(text), "Frame of 3 nodes and 2 members")
    assert not {"400", "300", "500"} & set(texts)
    assert "seen slantwise" in text


def test_a_pin_is_drawn_with_its_measures(pages):
    """Both plates seen along it, and along its length with the pull."""
    figures = _of(pages, "eye_pin")
    for start in ("Plate within", "Plates outside"):
        assert {"hole 26", "end 40", "edge 40"} <= set(_one(figures, start)[1])
    assert {"12", "20", "pin 25", "gap 2", f"{4 * G_0:.4g} kN"} <= set(_one(figures, "Pin of 25 mm")[1])


def test_what_is_not_stated_of_a_pin_is_dashed_and_has_no_figure(pages):
    """No end and edge distance, and it is said."""
    figures = _of(pages, "bearing_press")
    title, texts = _one(figures, "Plate within")
    assert "end and edge not stated" in title
    assert not any(text.startswith(("end", "edge")) for text in texts)
    assert "Dashed: not stated" in pages["bearing_press"][0].read_text(encoding="utf-8")


def test_a_platen_is_drawn_with_bearers_and_how_flat_it_stays(pages):
    """Out of flat as the check found it."""
    figures = _of(pages, "gluing_press_as_drawn")
    flat = next(f for f in pages["gluing_press_as_drawn"][1].result.findings if f.check == "platen flatness")
    assert {"bearers 620 apart", "1400", "350"} <= set(_one(figures, "Platen 1400 by 350 mm")[1])
    assert f"out of flat {flat.demand.value:.3g} mm, wanted 0.3" in _one(figures, "Platen from the side")[1]


# Rate of a helical spring, G d^4 / (8 D^3 n) with G 81500 MPa of EN 13906-1 (memory).
def test_a_spring_is_drawn_with_its_forces(pages):
    """Wire 6, mean diameter 42, 36 active coils, free 515."""
    rate = 81500 * 6**4 / (8 * 42**3 * 36)
    _, texts = _one(_of(pages, "return_spring"), "Force of one spring")
    assert {f"fitted {rate * 95:.0f} N", f"pressed {rate * 245:.0f} N", "keep clear", "works here"} <= set(texts)


# Statics and the elastic line: F / 2, F L / 4 (derived).
def test_a_beam_is_drawn_with_its_shear_and_moment(pages):
    """8 t in the middle of 900 mm."""
    _, texts = _one(_of(pages, "beam_under_8_tonnes"), "Beam of 900 mm")
    assert {f"{8 * G_0 / 2:.4g}", f"{8 * G_0 * 0.9 / 4:.4g}", "450", "900"} <= set(texts)


def test_an_arm_is_drawn_to_where_it_ends():
    """By `beyond`, 40 mm past the line of the force: 100 mm more need a smaller scale. Not stated, it is said."""
    told = next(path for path in EXAMPLES if path.stem == "eyelet_press_c_frame").read_text(encoding="utf-8")
    untold = told.replace('[lower]\nbeyond = "40 mm"\n', "")
    assert untold != told
    stated, longer = page(told).html, page(told.replace('beyond = "40 mm"', 'beyond = "140 mm"')).html
    said = "how far lower arm goes beyond the force"
    assert said not in stated
    assert said in page(untold).html
    tall = [float(re.search(r'<svg[^>]*viewBox="0 0 [\d.]+ ([\d.]+)"', made)[1]) for made in (stated, longer)]
    assert tall[1] < tall[0]


def test_every_described_frame_is_drawn(pages):
    """The frame, how it moves, and N, V, M."""
    for path in EXAMPLES:
        text = pages[path.stem][0].read_text(encoding="utf-8")
        described = "[frame]" in path.read_text(encoding="utf-8")
        for place in ("figure-frame", "figure-moved", "figure-axial-force", "figure-shear", "figure-moment"):
            assert (f'id="{place}-title"' in text) == described
