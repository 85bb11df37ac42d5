"""Properties against the outline: two routes from the same dimensions that share no formula."""

import numpy as np
import pytest
from polygons import plastic_modulus, section_integrals

from structcheck.shapes.library import library, look_up
from structcheck.shapes.section import QUANTITIES

LIBRARY = library()
SOME = [LIBRARY[k] for k in range(0, len(LIBRARY), 7)]


def designation(section) -> str:
    """What to call a section in a test report."""
    return section.designation


@pytest.mark.parametrize("section", LIBRARY, ids=designation)
def test_properties_agree_with_the_outline(section):
    """Area, centroid, second moments and elastic moduli are those of the polygon; chords cost up to 0.05 %."""
    polygons = section.outline()
    A, Qy, Qz, Jyy, Jzz, Jyz = section_integrals(polygons)
    size = abs(polygons[0]).max()
    assert pytest.approx(A, rel=5e-4) == section.A
    assert abs(Qy / A) < 1e-3 * size
    assert abs(Qz / A) < 1e-3 * size
    assert pytest.approx(Jzz, rel=5e-4) == section.Iy
    assert pytest.approx(Jyy, rel=5e-4) == section.Iz
    assert pytest.approx(Jyz, abs=5e-4 * Jyy) == section.Iyz
    assert pytest.approx(Jzz / abs(polygons[0][:, 1]).max(), rel=5e-4) == section.Wel_y
    assert pytest.approx(Jyy / abs(polygons[0][:, 0]).max(), rel=5e-4) == section.Wel_z
    assert section.edges == pytest.approx(
        (
            *np.array([polygons[0][:, 0].min(), polygons[0][:, 0].max()]),
            polygons[0][:, 1].min(),
            polygons[0][:, 1].max(),
        )
    )


@pytest.mark.parametrize("section", SOME, ids=designation)
def test_plastic_moduli_agree_with_the_clipped_outline(section):
    """Both plastic moduli are those of the polygon cut at the equal-area axis."""
    polygons = section.outline()
    assert section.Wpl_y == pytest.approx(plastic_modulus(polygons), rel=1e-3)
    assert section.Wpl_z == pytest.approx(plastic_modulus([polygon[:, ::-1] for polygon in polygons]), rel=1e-3)


@pytest.mark.parametrize("section", LIBRARY, ids=designation)
def test_every_section_is_sound(section):
    """Every property is finite and not negative, y is the strong axis, and plastic is above elastic."""
    values = section.properties()
    assert list(values) == list(QUANTITIES)
    assert all(np.isfinite(value) and value >= 0 for value in values.values())
    assert all(type(value) is float for value in values.values())
    assert section.Iy >= section.Iz * (1 - 1e-12)
    assert section.Wpl_y > section.Wel_y
    assert section.Wpl_z > section.Wel_z
    assert section.Avz <= section.A
    assert section.Asz <= section.A
    assert section.provenance in ("read", "memory")
    assert section.standard


def test_the_library_is_of_a_workshop_s_breadth():
    """Hundreds of sizes, each designation once."""
    names = [section.designation for section in LIBRARY]
    assert len(names) > 700
    assert len(set(names)) == len(names)


def test_the_principal_axes_of_an_equal_angle_are_its_diagonals():
    """Iu + Iv = Iy + Iz, u lies at 45 degrees, and Iv is the integral across the diagonal."""
    angle = look_up("L 60x60x6").section
    polygon = angle.outline()[0]
    turned = np.column_stack([polygon.sum(axis=1), polygon[:, 1] - polygon[:, 0]]) / 2**0.5
    _, _, _, across_v, across_u, mixed = section_integrals([turned])
    assert angle.alpha == pytest.approx(np.pi / 4)
    assert angle.Iu == pytest.approx(across_u, rel=5e-4)
    assert angle.Iv == pytest.approx(across_v, rel=5e-4)
    assert abs(mixed) < 1e-6 * angle.Iu
    assert angle.Iu + angle.Iv == pytest.approx(angle.Iy + angle.Iz)
