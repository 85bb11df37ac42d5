"""Where joints are easily overrated: traps of EN 1993-1-8 that no other test springs."""

import pytest

from structcheck.checks.basis import ULTIMATE
from structcheck.checks.bolts import BoltLoads
from structcheck.checks.bolts_group import NORTH
from structcheck.checks.bolts_strength import bearing_of, prying_forces, tension_of_one
from structcheck.checks.pin import Pin, PinLoads, bearing
from structcheck.materials.steels import find_steel
from structcheck.standards.en1993_1_8 import welds
from tests.checks.bolt_parts import BASIS, answer, full, group, loads


# Table 3.4: F_v,Ed / F_v,Rd + F_t,Ed / (1.4 F_t,Rd) <= 1, and F_t,Ed <= F_t,Rd (memory).
def test_the_interaction_alone_would_pass_a_bolt_pulled_beyond_its_tension():
    """Pulled at 1.2 times its resistance and barely sheared: the sum is 0.87, tension alone fails."""
    pull = 1.2 * 4 * tension_of_one(full(), BASIS) / 1.5
    found = answer(full(), loads(shear=1e3, tension=pull))
    assert found["bolt shear and tension"].verdict == "holds"
    assert found["bolt tension"].verdict == "fails"


def test_prying_is_part_of_the_pull_in_the_interaction():
    """With a lever stated the bolt feels its share of the force and the prying on top."""
    part, load = full(lever=30.0, edge=32.0, thread="out"), BoltLoads(ULTIMATE, 10e3, tension=60e3)
    pried = float(prying_forces(part, load).max())
    assert pried > 0
    shear, shank = 10e3 / 4, 0.6 * 800 * part.shank / 1.25
    expected = shear / shank + (15e3 + pried) / (1.4 * tension_of_one(part, BASIS))
    found = answer(part, loads(shear=10e3 / 1.5, tension=40e3))["bolt shear and tension"]
    assert found.utilisation == pytest.approx(expected)


# 3.7: the sum of the bearings only where every bolt's shear is above its bearing, else the number times the smallest.
def test_bolts_that_bear_unlike_are_not_summed():
    """End bolts bear less than inner ones: the group counts as four of the least, whichever governs."""
    part = full(end=24.0, pitch=90.0, edge=60.0, thread="out")
    each = [bearing_of(part, index, NORTH, BASIS)[0] for index in range(4)]
    assert min(each) < 0.7 * max(each)
    assert answer(part, loads(shear=10e3))["bolt bearing"].capacity.value == pytest.approx(4 * min(each))


# EN 1090-2 Table 11 (memory).
@pytest.mark.parametrize(
    ("size", "hole"), [("M12", 13), ("M14", 15), ("M16", 18), ("M24", 26), ("M27", 30), ("M36", 39)]
)
def test_holes_are_wider_by_size(size, hole):
    """1 mm to M14, 2 mm to M24, 3 mm from M27; stated in the assumptions."""
    assert group(size=size).d_0 == hole


def test_a_steel_is_thicker_and_weaker_in_the_pin_than_in_its_plate():
    """Bearing takes the lower yield of pin and plate, 1.5 t d f_y / gamma_M0 (Table 3.10), and no f_u at all."""
    strong, weak = find_steel("S355"), find_steel("S235")
    for steels in ((strong, weak), (weak, strong)):
        pin = Pin("p", 20.0, steels[0], 20.0, 12.0, inner_steel=steels[1], outer_steel=strong, replaceable=False)
        finding = bearing(pin, PinLoads(ULTIMATE, 10e3), BASIS)
        assert finding.capacity.value == pytest.approx(1.5 * 20 * 20 * weak.f_y(20.0))


def test_the_stress_along_a_weld_has_no_place_in_its_strength():
    """4.5.3.2(4): sigma_parallel is left out; the condition has three stresses and no fourth."""
    assert welds.equivalent_stress.parameters == ("sigma_perp", "tau_perp", "tau_par")
