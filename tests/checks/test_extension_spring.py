"""Springs that pull: hooks at many presses, what a maker's sheet says in place of the wire."""

import math
from dataclasses import replace

import pytest

from structcheck.checks.basis import Basis
from structcheck.checks.extension_spring import check_extension_spring, endurance_ratio
from structcheck.errors import InputError
from structcheck.materials.wires import find_wire
from tests.checks.test_spring_kinds import PULLING, by_check

OFTEN = Basis(presses=50_000)


def test_hooks_at_many_presses_are_judged_for_endless_life():
    """By hand for the hook's bend: von Mises shear; the lower of 3/4 of Zimmerli's and the handbook's 45 %."""
    found = by_check(check_extension_spring(replace(PULLING, stretched=320), OFTEN))["fatigue"]
    rate = 81500 * 4**4 / (8 * 28**3 * 40)
    per_newton = (16 * 188 / 168 * 28 / (math.pi * 64) + 4 / (math.pi * 16)) / math.sqrt(3)
    least, most = (per_newton * (40 + rate * travel) for travel in (60, 100))
    S_su = 0.67 * 1530
    S_u, pulled = 1530 / math.sqrt(3), 0.45 / math.sqrt(3) * 1530 / 2
    S_e = min(0.75 * 241 / (1 - 379 / S_su), pulled / (1 - pulled / S_u))
    used = (most - least) / 2 / S_e + (most + least) / 2 / S_u
    assert (found.utilisation, found.verdict) == (pytest.approx(used), "holds")
    assert found.reason.startswith("hook bending") and "(memory)" in found.source
    assert by_check(check_extension_spring(PULLING, OFTEN))["fatigue"].verdict == "fails"


@pytest.mark.parametrize("grade", ["SL", "SM", "SH"])
@pytest.mark.parametrize("d", [2, 3, 4, 5, 6, 8, 10])
def test_hooks_are_allowed_no_more_than_spring_makers_allow(d, grade):
    """A design handbook of spring makers (memory), pulled from nothing: 30, 28, 45 % of R_m for ten million pulls."""
    wire = find_wire(grade)
    spring = replace(PULLING, wire=d, mean=8 * d, bend=3 * d, grade=wire, initial=0, active=20, free=600, fitted=600,
                     stretched=700)  # fmt: skip
    force = spring.pull(700)
    torsion = 8 * force * 8 / (math.pi * d**2) * 23 / 20
    bending = force * (16 * 247 / 224 * 8 / (math.pi * d**2) + 4 / (math.pi * d**2))
    body = 8 * force * 8 / (math.pi * d**2) * 8.5 / 7.25
    for place, stress, share in (
        ("body", body, 0.30),
        ("hook torsion", torsion, 0.28),
        ("hook bending", bending, 0.45),
    ):
        assert stress / endurance_ratio(spring, place) <= share * wire.R_m(d) * (1 + 1e-9), place


def test_a_pulling_spring_off_a_makers_sheet_is_judged_by_its_length():
    """A rate alone says nothing of hooks; the greatest length its maker permits does, static and at many presses."""
    bare = replace(PULLING, wire=None, mean=None, active=None, rate=3.0)
    found = by_check(check_extension_spring(bare, OFTEN))
    for check in ("spring stress", "hook bending", "hook torsion", "fatigue"):
        assert found[check].verdict == "not checked"
        assert "most, the greatest length its maker permits" in found[check].reason
    outcome = check_extension_spring(replace(bare, most=400), OFTEN)
    travel = by_check(outcome)["spring travel"]
    assert (travel.demand.value, travel.capacity.value, travel.verdict) == (160, 180, "holds")
    assert not [f for f in outcome.findings if f.verdict == "not checked"]
    assert by_check(check_extension_spring(replace(bare, most=370), OFTEN))["spring travel"].verdict == "fails"
    with pytest.raises(InputError, match="leaves nothing to stretch"):
        check_extension_spring(replace(bare, most=200), OFTEN)


def test_a_pulling_spring_outside_the_standard_is_not_judged_by_it():
    """D/d = 3 or two coils: not even the return is relied on."""
    for changes in ({"mean": 12, "free": 300, "fitted": 310}, {"active": 2}):
        found = by_check(check_extension_spring(replace(PULLING, **changes), OFTEN))
        for check in ("spring return force", "spring stress", "fatigue"):
            assert "EN 13906-2" in found[check].reason


def test_an_unknown_initial_pull_is_no_pull_for_the_return_only():
    """The least is safe for what comes back; what works the wire may be any amount more: not checked."""
    found = by_check(check_extension_spring(replace(PULLING, initial=None), OFTEN))
    assert found["spring return force"].verdict != "not checked"
    for check in ("spring stress", "hook bending", "hook torsion", "fatigue"):
        assert found[check].verdict == "not checked", check
        assert "initial" in found[check].reason
