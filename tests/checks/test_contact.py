"""Round pins and rollers pressed on flats and in holes."""

from dataclasses import replace

import numpy as np
import pytest

from structcheck.checks.basis import RATED, ULTIMATE, Basis
from structcheck.checks.contact import Contact, ContactLoads, check_contact
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.standards import handbook_contact as contact

STEEL = find_steel("S235")
PIN = Contact("bed pin", 25.0, 20.0, (STEEL, STEEL))


def finding(part, force):
    return check_contact(part, [ContactLoads(ULTIMATE, force), ContactLoads(RATED, force / 1.5)], Basis()).findings[0]


def test_hertz_in_its_other_form():
    """p_0 = 0.418 sqrt(F E / (L R)) for steel on steel (memory; the figure is in every textbook)."""
    assert contact.peak_pressure(5e4, 60.0, 12.5, 210e3, 0.3) == pytest.approx(
        0.418 * (5e4 * 210e3 / 750) ** 0.5, rel=2e-3
    )


def test_first_yield_lies_below_the_surface_at_1_67():
    """On the axis of a line contact the greatest shear is 0.30 p_0, at 0.79 of the half width (derived)."""
    z = np.linspace(0.01, 3.0, 3000)
    root = np.sqrt(1 + z**2)
    across, down = -((1 + 2 * z**2) / root - 2 * z), -1 / root
    shear = abs(across - down) / 2
    assert shear.max() == pytest.approx(0.300, abs=1e-3) and z[shear.argmax()] == pytest.approx(0.786, abs=2e-3)
    assert 0.5 / shear.max() == pytest.approx(contact.FIRST_YIELD, abs=0.01)


def test_a_pin_on_two_webs_by_hand():
    """23 x 12.5 x 20 x 360^2 / 210000 = 3.55 kN: a line of 20 mm bears little; a close hole bears much more."""
    assert finding(PIN, 1e3).capacity.value == pytest.approx(23 * 12.5 * 20 * 360**2 / 210e3)
    snug = finding(replace(PIN, hollow=26.0), 1e3)
    assert snug.capacity.value == pytest.approx(26 * finding(PIN, 1e3).capacity.value)


def test_doubling_the_force_doubles_the_utilisation():
    """The rule is linear in the force, though the pressure is not."""
    assert finding(PIN, 2e3).utilisation == pytest.approx(2 * finding(PIN, 1e3).utilisation)


def test_the_pressure_is_an_answer():
    """With how far it is from first yield."""
    answers = check_contact(PIN, [ContactLoads(RATED, 1e4)], Basis()).answers
    assert len(answers) == 1 and "times from first yield" in answers[0]


def test_steel_outside_en_1993_and_no_force_are_not_checked():
    """Never a pass."""
    assert finding(replace(PIN, steels=(STEEL, find_steel("S185"))), 1e3).verdict == "not checked"
    assert check_contact(PIN, [], Basis()).findings[0].verdict == "not checked"


def test_a_hole_smaller_than_the_pin_is_refused():
    """It cannot go in."""
    with pytest.raises(InputError, match="is no hole for this pin"):
        check_contact(replace(PIN, hollow=24.0), [], Basis())
