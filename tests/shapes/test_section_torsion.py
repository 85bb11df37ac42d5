"""Torsion against Saint-Venant's equation solved by finite elements."""

import pytest
from saint_venant import torsion_constant, warping

from structcheck.shapes.hollow import Hollow
from structcheck.shapes.library import look_up

# Element size about a quarter of the thinnest wall; the elements' own error is below 0.2 %.
CASES = [
    ("SHS 100x100x5", 1.5, -0.005, 0.005),
    ("RHS 100x50x4", 1.2, -0.005, 0.005),
    # The standard's formula for hot tubes is on the safe side.
    ("SHS 100x100x5 hot", 1.5, -0.045, 0.0),
    ("SHS 60x60x8 hot", 2.0, -0.045, 0.0),
    ("CHS 60.3x5", 1.25, -0.002, 0.002),
    ("FL 80x10", 2.0, -0.001, 0.001),
    ("SQ 20", 1.0, -0.001, 0.001),
    ("RD 20", 1.0, -0.001, 0.001),
    # The producers' formula; 4 % high for the smallest IPE.
    ("IPE 100", 1.0, 0.0, 0.045),
    ("IPE 160", 1.4, 0.0, 0.045),
    ("HEA 200", 1.8, 0.0, 0.035),
    ("HEB 200", 2.2, -0.01, 0.03),
    ("UPN 80", 1.5, 0.0, 0.025),
    ("UPN 120", 1.75, 0.0, 0.02),
    ("UPN 300", 2.5, 0.0, 0.02),
    ("UPE 100", 1.1, -0.005, 0.005),
    ("UPE 200", 1.5, -0.005, 0.005),
    # The formula does not see the rounded toes.
    ("L 50x50x5", 1.2, 0.0, 0.03),
    ("L 100x100x10", 2.5, 0.0, 0.03),
    ("W8X18", 1.6, -0.004, 0.004),
    ("C10X15.3", 1.6, 0.0, 0.02),
    # Bredt's formula alone, as the American tables have it.
    ("HSS4X4X1/4", 1.5, -0.02, 0.0),
]


@pytest.mark.parametrize(("name", "size", "low", "high"), CASES, ids=[case[0] for case in CASES])
def test_the_torsion_constant_agrees_with_finite_elements(name, size, low, high):
    """It lies within the stated band about the elements' value."""
    section = look_up(name).section
    off = section.It / torsion_constant(section.outline(), size) - 1
    assert low - 0.002 <= off <= high + 0.002


@pytest.mark.parametrize(
    ("name", "centre", "constant"),
    [
        ("UPN 80", 0.07, 0.02),
        ("UPN 180", 0.05, 0.02),
        ("UPE 100", 0.05, 0.045),
        ("UPE 200", 0.05, 0.045),
        ("C10X15.3", 0.05, 0.02),
    ],
)
def test_the_shear_centre_of_a_channel_agrees_with_finite_elements(name, centre, constant):
    """The middle-line formulas put it 2 to 7 % too far out, which is safe, and Iw within 4 %."""
    section = look_up(name).section
    y_s, Iw = warping(section.outline(), section.dimensions["tw"] / 4)
    assert 0 <= section.y_s / y_s - 1 <= centre
    assert section.Iw == pytest.approx(Iw, rel=constant)


def test_the_warping_constant_of_an_i_section_agrees_with_finite_elements():
    """The two flanges alone give Iw within 4.5 %, on the high side."""
    section = look_up("IPE 160").section
    _, Iw = warping(section.outline(), 1.4)
    assert 0 <= section.Iw / Iw - 1 <= 0.045


def test_leaving_the_fillets_out_would_lose_a_fifth_of_the_torsion_constant():
    """The plain sum of b t^3 / 3 is 18 to 28 % below finite elements for IPE and HEA."""
    for name in ("IPE 160", "HEA 200"):
        section = look_up(name).section
        d = section.dimensions
        plain = (2 * d["b"] * d["tf"] ** 3 + (d["h"] - 2 * d["tf"]) * d["tw"] ** 3) / 3
        assert -0.30 < plain / torsion_constant(section.outline(), d["tw"] / 3) - 1 < -0.15


def test_the_torsion_modulus_of_a_square_bar_is_the_textbook_one():
    """Wt = 0.208 a^3 and It = 0.1406 a^4 (Theory of Elasticity, Timoshenko and Goodier, table of constants)."""
    bar = look_up("SQ 20").section
    assert bar.It / 20**4 == pytest.approx(0.1406, abs=5e-5)
    assert bar.Wt / 20**3 == pytest.approx(0.208, abs=5e-4)


def test_the_american_torsion_constant_c_is_not_the_torsion_modulus():
    """C, mean stress across the wall, is 5 to 23 % above the elastic Wt kept for checks."""
    tube = look_up("HSS4X4X1/4").section.shape
    european = Hollow(tube.h, tube.b, tube.t, tube.ro, tube.ri)
    assert 1.05 < tube.C / european.Wt < 1.23
