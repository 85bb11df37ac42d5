"""Forces: what the jack is rated for, what its drive can give, what strength is judged at."""

import math

import pytest

from structcheck.errors import InputError
from structcheck.press.cases import jack_forces
from structcheck.press.reading import describe
from structcheck.press.schema import BasisTable, Jack, Use

T = 9806.65


def _forces(basis=None, **jack):
    return jack_forces(describe(Jack, {"rating": "8 t", **jack}), describe(BasisTable, basis or {}))


def test_a_valve_not_stated_gives_a_quarter_more_and_is_said():
    """F_max = 1.25 R with "verify the valve"; ultimate = max(1.5 R, 1.2 F_max) = 1.5 R."""
    forces = _forces()
    assert forces.rated == pytest.approx(8 * T)
    assert forces.greatest == pytest.approx(10 * T)
    assert forces.ultimate == pytest.approx(12 * T)
    assert "verify the valve" in forces.outcome.assumptions[0].text


def test_a_stated_relief_is_what_the_drive_gives():
    """A valve at 12 t on an 8 t jack: ultimate = 1.2 x 12 t."""
    forces = _forces(relief="12 t")
    assert forces.greatest == pytest.approx(12 * T)
    assert forces.ultimate == pytest.approx(14.4 * T)
    assert forces.outcome.assumptions == ()


def test_a_relief_pressure_acts_on_the_bore():
    """700 bar on 40 mm: 70 MPa x pi 40^2 / 4 = 87.96 kN (derived)."""
    assert _forces(relief="700 bar", bore="40 mm").greatest == pytest.approx(70 * math.pi * 400)
    with pytest.raises(InputError, match="is a pressure and the bore is not stated"):
        _forces(relief="700 bar")


def test_several_jacks_push_together():
    """R and F_max are of all of them."""
    forces = _forces(count=2, relief="9 t")
    assert forces.rated == pytest.approx(16 * T)
    assert forces.greatest == pytest.approx(18 * T)


@pytest.mark.parametrize("drive", ["air", "power"])
def test_a_powered_drive_of_unknown_force_is_incomplete(drive):
    """What it can give is not known: never a pass."""
    finding = _forces(drive=drive).outcome.findings[0]
    assert (finding.part, finding.check, finding.verdict) == ("jack", "greatest force", "not checked")
    assert _forces(drive=drive, relief="10 t").outcome.findings == ()


def test_a_valve_below_the_rating_is_said():
    """The rated force cannot be reached; the rating still judges."""
    forces = _forces(relief="7 t")
    assert forces.rated == pytest.approx(8 * T)
    assert "below the rated" in forces.outcome.advice[0]


def test_a_higher_load_factor_counts():
    """max(load_factor R, 1.2 F_max)."""
    assert _forces({"load_factor": 2.0}).ultimate == pytest.approx(16 * T)
    assert _forces({"load_factor": 1.0}).ultimate == pytest.approx(12 * T)


def test_the_basis_counts_presses():
    """20 a day, 250 days, 10 years where none is stated."""
    assert _forces().as_basis(BasisTable(), Use()).presses == 50_000
    assert _forces().as_basis(BasisTable(), Use(presses_per_day=10, days=60, years=15)).presses == 9_000


def test_a_relief_of_nothing_is_refused():
    """Zero would make every demand vanish."""
    with pytest.raises(InputError, match="above zero"):
        _forces(relief="0 t")
