"""The weld that closes a half-lap slot."""

import numpy as np
import pytest

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.member_stress import Station, stresses
from structcheck.checks.slot_weld import SlotJoint, check_slot_weld
from structcheck.errors import InputError
from structcheck.materials.steels import find_steel
from structcheck.questions import check_press
from structcheck.shapes.slots import Slot, SlotWeld

SLOT = Slot(120.0, 12.0, 60.0, 12.5)
STEEL = find_steel("S235")
F_VW = 360 / 3**0.5 / (0.8 * 1.25)
FILLETS = SlotWeld("fillets", 4.0, returned=True)
RIB = {"name": "rib", "shape": "flat", "h": "120 mm", "t": "12 mm"}
CUT = {"depth": "60 mm", "width": "13 mm"}
WELD = {"weld": "fillets", "throat": "5 mm", "inspected": True}


def joint(weld=FILLETS, slot=SLOT, steel=STEEL, inspected=True):
    return SlotJoint(name="slot weld", slot=slot, weld=weld, steel=steel, inspected=inspected)


def judged(M=1e6, N=0.0, pieces=1, **changes):
    station = Station(ULTIMATE, "in the middle", N=N, M_y=M)
    made = check_slot_weld(joint(**changes), [station], pieces, Basis())
    return {f.check: f for f in made.findings}


def by_fibres(M, N, weld_thickness, stiffness, slot=SLOT, count=6000):
    """Stress in the weld's outer end and the greatest in what is left, from plane strain over thin fibres.

    The unknowns, strain at mid-depth and curvature, come from two equations of equilibrium; nothing of the sections
    of the package is used. The moment acts about the middle of what carries it.
    """
    z = (np.arange(count) + 0.5) * slot.h / count
    weld = z > slot.h - slot.depth
    E = np.where(weld, stiffness, 1.0)
    width = np.where(weld, weld_thickness, slot.t) * slot.h / count
    middle = float(np.sum(E * width * z) / np.sum(E * width))
    y = z - middle
    equations = [[np.sum(E * width), np.sum(E * width * y)], [np.sum(E * width * y), np.sum(E * width * y**2)]]
    strain, curvature = np.linalg.solve(equations, [N, M])
    sigma = E * (strain + curvature * y)
    assert np.sum(sigma * width) == pytest.approx(N, abs=1e-6) and np.sum(sigma * width * y) == pytest.approx(M)
    return float(np.max(np.abs(sigma[weld]))), float(np.max(np.abs(sigma[~weld])))


# Derived: integration over fibres, twice: the weld as stiff as the rib, and as soft as its throats.
def test_the_weld_carries_the_elastic_force_of_the_whole_rib():
    """Its end bears sigma t for each mm; two fillets of 4 mm at 207.8 MPa stand against it."""
    throat = judged(1e6)["weld throat"]
    end, _ = by_fibres(1e6, 0.0, 12.0, 1.0)
    assert throat.demand.value == pytest.approx(end * 12, rel=1e-3)
    assert throat.demand.value == pytest.approx(1e6 / (12 * 120**2 / 6) * 12)
    assert throat.capacity.value == pytest.approx(2 * 4 * F_VW)
    assert judged(1e6, 20e3)["weld throat"].demand.value == pytest.approx(1e6 / 28800 * 12 + 20e3 / 1440 * 12)
    assert judged(1e6, pieces=2)["weld throat"].utilisation == pytest.approx(throat.utilisation / 2)


def test_what_is_left_carries_more_the_softer_the_weld():
    """The section with its weld is that of the softer bound: its stress in what is left covers the stiff one's."""
    soft = dict(zip(*stresses(SLOT.welded(FILLETS), M_y=1e6), strict=True))
    _, stiff_rest = by_fibres(1e6, 0.0, 12.0, 1.0)
    end, rest = by_fibres(1e6, 0.0, 8.0, 1.0)
    assert max(soft["at the top"], soft["at the bottom"]) == pytest.approx(max(end, rest), rel=1e-3)
    assert soft["at the bottom"] == pytest.approx(rest, rel=1e-3) and rest > stiff_rest


def test_the_restored_moment_lies_under_what_yielding_fibres_could_bear():
    """Lower bound: at the moment both findings allow, rigid-plastic fibres with the welds at strength still resist."""
    for a in (3.0, 4.0, 5.0, 6.0):
        weld = SlotWeld("fillets", a, returned=True)
        allowed = min(1e6 / judged(1e6, weld=weld)["weld throat"].utilisation, SLOT.welded(weld).Wel_y * 235.0)
        z = (np.arange(6000) + 0.5) * 120 / 6000
        force = np.where(z > 60, min(2 * a * F_VW, 12 * 235.0), 12 * 235.0) * 120 / 6000
        axis = z[np.searchsorted(np.cumsum(force), force.sum() / 2)]
        assert allowed < np.sum(force * np.abs(z - axis))


def test_a_weld_that_is_not_inspected_or_unknown_steel_is_not_believed():
    """0.7 of the strength; unknown steel is not welded until the user says so; US steel has no factor."""
    inspected, looked_over = judged()["weld throat"], judged(inspected=False)["weld throat"]
    assert looked_over.capacity.value == pytest.approx(0.7 * inspected.capacity.value)
    assert judged(steel=find_steel("unknown"))["weld throat"].verdict == "not checked"
    assert judged(steel=find_steel("A36"))["weld throat"].verdict == "not checked"
    short = SlotWeld("fillets", 4.0, 35.0)
    assert "too short" in judged(weld=short)["weld throat"].reason
    assert "4 mm" in judged(slot=Slot(60.0, 3.0, 30.0, 4.0), weld=SlotWeld("fillets", 3.0))["weld throat"].reason


def test_a_butt_of_full_penetration_is_the_rib_itself():
    """f_y of the rib; inspected it uses what the whole rib would."""
    throat = judged(weld=SlotWeld("butt", returned=True))["weld throat"]
    assert throat.utilisation == pytest.approx(1e6 / 28800 / 235)


def press(**slot):
    beam = {"name": "bed rib", "section": "rib", "steel": "S235", "span": "400 mm", "load": "8 kN", "quality": "JR"}
    section = RIB | {"slot": CUT | slot}
    return check_press({"schema": 1, "jack": {"rating": "80 kN"}, "section": [section], "beam": [beam]})


def test_a_press_file_states_the_weld_of_a_slot():
    """The rib bends as restored, its weld is a part of its own, and what is taken for granted is printed."""
    cut, welded = press(), press(**WELD)
    use = {(f.part, f.check): f for f in welded.findings}
    before = {(f.part, f.check): f for f in cut.findings}
    assert use["bed rib", "bending"].capacity.value > 2 * before["bed rib", "bending"].capacity.value
    assert use["bed rib", "shear"].capacity.value == before["bed rib", "shear"].capacity.value
    assert use["bed rib", "lateral torsional buckling"].verdict == "holds"
    assert use["bed rib, slot weld", "weld throat"].verdict == "holds"
    assert use["bed rib, slot weld", "fatigue"].demand.value > 0
    # The corners of the slot stay notches without a category.
    assert use["bed rib, slot", "fatigue"].verdict == "not checked"
    assert any("hands no force across" in a.condition for a in welded.conditions)
    assert any("restores nothing" in a.text for a in cut.assumptions)


@pytest.mark.parametrize(
    ("slot", "words"),
    [
        ({"weld": "fillets"}, "slot.throat: is missing"),
        ({"weld": "butt", "throat": "4 mm"}, "slot.throat: means nothing for a butt weld"),
        ({"throat": "4 mm"}, "slot.throat: describes a weld that is not stated"),
        (WELD | {"length": "70 mm"}, "slot.length: is more than the slot is deep"),
    ],
)
def test_a_weld_half_described_is_refused(slot, words):
    """With the key and what to write."""
    with pytest.raises(InputError) as refused:
        press(**slot)
    assert words in str(refused.value)


def test_a_weld_too_small_to_restore_anything_counts_as_none():
    """The rib counts as cut, and the weld is no part of the answer."""
    result = press(**WELD | {"throat": "1 mm"})
    use = {(f.part, f.check): f for f in result.findings}
    assert use["bed rib", "bending"].capacity.value == pytest.approx(12 * 60**2 / 4 * 235)
    assert ("bed rib, slot weld", "weld throat") not in use
    assert any("too small to restore anything" in n.reason for n in result.does_not_apply)


def test_a_pull_through_a_slotted_rib_rests_on_its_line():
    """What the slot leaves lies off the middle of the rib: an axial force there is a condition."""
    upright = {"name": "u", "section": "rib", "steel": "S235", "length": "900 mm", "pull": 0.1}
    section = RIB | {"slot": CUT}
    result = check_press({"schema": 1, "jack": {"rating": "80 kN"}, "section": [section], "upright": [upright]})
    assert any("middle of what the slot leaves" in a.condition for a in result.conditions)
