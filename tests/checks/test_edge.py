"""A force pressed into the edge of a flat, a bar or an angle's leg."""

import math

import pytest

from structcheck.questions import check_beam

FLAT = {
    "section": "FL 150x10", "steel": "S275", "quality": "JR", "detail": "rolled parent metal", "span": "300 mm",
    "load": "60 kN", "pad": "50 mm", "bearing": "50 mm", "beyond": "0 mm", "held_at": ["150 mm"],
}  # fmt: skip


def found(**changes):
    return {f.check: f for f in check_beam(**FLAT | changes).findings}


def test_a_thin_pad_crushes_the_edge():
    """90 kN on 5 x 10 mm against 275 MPa by hand (derived); 75 kN of it against yield."""
    checks = found(pad="5 mm", pad_across="10 mm")
    assert checks["web under load"].utilisation == pytest.approx(90e3 / (5 * 10 * 275), rel=1e-9)
    assert checks["yield at greatest force"].utilisation == pytest.approx(75e3 / (5 * 10 * 275), rel=1e-9)


def test_the_strip_below_is_a_strut():
    """A slender flat, the force spread by the depth, free to sway over twice the depth; curve c by hand (derived)."""
    checks = found(section="FL 150x6", load="40 kN", pad="100 mm", bearing="100 mm", pad_across="6 mm")
    A = 6 * (100 + 75)  # the support: no beam left beyond it
    N_cr = math.pi**2 * 210e3 * A * 6**2 / 12 / 300**2
    slender = math.sqrt(A * 275 / N_cr)
    phi = 0.5 * (1 + 0.49 * (slender - 0.2) + slender**2)
    chi = 1 / (phi + math.sqrt(phi**2 - slender**2))
    at_support = 30e3 / (chi * A * 275)
    A = 6 * (100 + 75 + 75)
    under_load = 60e3 / (chi * A * 275)
    assert checks["web under load"].utilisation == pytest.approx(max(at_support, under_load), rel=1e-6)


@pytest.mark.parametrize("missing", ["pad", "bearing"])
def test_a_contact_of_unknown_length_is_not_checked(missing):
    """Never a pass, and what to state is said."""
    stated = {key: value for key, value in FLAT.items() if key != missing}
    answer = check_beam(**stated)
    web = {f.check: f for f in answer.findings}["web under load"]
    assert web.verdict == "not checked"
    assert f"`{missing}`" in web.reason
    assert answer.verdict == "incomplete"


@pytest.mark.parametrize("size", ["SQ 60", "L 150x150x10"])
def test_bars_and_legs_are_judged_alike(size):
    """The width of the contact is that of the bar or of the leg."""
    width = 10 if size.startswith("L") else 60
    use = found(section=size, pad="10 mm", pad_across="100 mm")["web under load"].utilisation
    f_y = {"SQ 60": 255.0, "L 150x150x10": 275.0}[size]
    assert use == pytest.approx(90e3 / (10 * width * f_y), rel=1e-9)


def test_more_force_is_never_less_use():
    """Nor a shorter pad."""
    uses = [found(load=f"{kN} kN")["web under load"].utilisation for kN in (10, 20, 40, 80)]
    assert uses == sorted(uses)
    uses = [found(pad=f"{mm} mm")["web under load"].utilisation for mm in (80, 40, 20, 10)]
    assert uses == sorted(uses)


def test_a_round_bar_is_touched_along_a_line():
    """Contact on a round surface is another question."""
    web = found(section="RD 60")["web under load"]
    assert (web.verdict, "contact" in web.reason) == ("not checked", True)
