"""How many bolts, which size, how thick a pin."""

import pytest

from structcheck.checks.basis import Basis, from_rated
from structcheck.checks.pin import Pin, PinLoads
from structcheck.materials.steels import find_steel
from structcheck.sizing.bolts import PATTERNS, find_bolt_size, find_count, find_diameter
from tests.checks.bolt_parts import full, group, loads

BASIS = Basis(static=True)


def test_the_fewest_bolts_that_hold_and_why_fewer_do_not():
    """78 kN at 1.5: one M16 is sheared to 1.94, two hold."""
    found = find_count(group(end=40.0, edge=40.0), loads(shear=78e3), BASIS)
    assert (found.part.rows, found.part.columns) == (2, 1)
    assert (found.smaller.rows, found.smaller.columns) == (1, 1)
    assert found.smaller_fails.check == "bolt shear"
    assert found.smaller_fails.utilisation == pytest.approx(117 / 60.288, rel=1e-4)
    assert not [f for f in found.outcome.findings if f.verdict == "fails"]


def test_the_force_beside_the_centre_rules_out_one_bolt():
    """One bolt cannot hold a moment: told as a reason, not raised."""
    found = find_count(group(end=40.0, edge=40.0), loads(shear=2e3, eccentricity=30.0), BASIS)
    assert found.part.count > 1
    assert found.smaller is not None


def test_it_says_when_none_does():
    """900 kN tears the plate whatever the bolts."""
    found = find_count(group(end=40.0, edge=40.0), loads(shear=900e3), BASIS)
    assert found.part is None
    assert found.reason == "no pattern up to 16 M16 holds: net section fails last"


def test_patterns_go_from_fewest_to_most():
    """Whole bolts in rows and columns."""
    counts = [rows * columns for rows, columns in PATTERNS]
    assert counts == sorted(counts)


def test_the_thinnest_size_that_holds():
    """Four bolts for 200 kN at 1.5: M18 bears 295 kN, M20 376 kN of the 300."""
    part = full(plate=20.0, end=60.0, edge=50.0, pitch=90.0, gauge=90.0)
    found = find_bolt_size(part, loads(shear=200e3), BASIS)
    assert found.part.size.name == "M20"
    assert found.smaller.size.name == "M18"
    assert found.smaller_fails.verdict == "fails"


def test_the_thinnest_stock_pin():
    """A pin to be taken out under 100 kN: 30 holds, 28 bends too far in service."""
    part = Pin("p", 40.0, find_steel("S355"), 20.0, 12.0, gap=2.0)
    found = find_diameter(part, from_rated(BASIS, lambda case, f: PinLoads(case, 100e3 * f)), BASIS)
    assert (found.part.diameter, found.smaller.diameter) == (30.0, 28.0)
    assert found.smaller_fails.check == "pin bending"


def test_bolts_outside_the_standard_are_not_sized():
    """12.9 is not checked, so no count of it is said to hold."""
    found = find_count(group(bolt_class="12.9", end=40.0, edge=40.0), loads(shear=20e3), BASIS)
    assert found.part is None
    assert found.reason == "no pattern up to 16 M16 holds: class 12.9 is outside EN 1993-1-8 Table 3.1"
