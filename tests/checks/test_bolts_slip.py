"""Bolts that hold by friction, and how tight they go."""

from dataclasses import replace

import pytest

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.bolts import BoltLoads, check_bolts
from structcheck.checks.bolts_plate import blocks, net_section
from structcheck.checks.bolts_slip import k_s
from structcheck.checks.tightening import torque_for, torque_table
from structcheck.errors import InputError, NotCovered
from structcheck.findings import Result
from structcheck.materials.bolts import find_class, find_size
from tests.checks.bolt_parts import BASIS, answer, full, group, loads
from tests.printed import printed


# Steel producer's tables to Eurocode 3, M16 8.8 preloaded (read).
def test_category_c_holds_at_ultimate_and_b_in_service():
    """14.1 kN a bolt at ultimate with mu 0.2; 16.0 kN in service, judged at the greatest force."""
    c = answer(full(category="C"), loads(shear=10e3))["slip"]
    assert c.case == "ultimate"
    assert c.capacity.value / 4e3 == printed("14.1")
    b = answer(full(category="B"), loads(shear=10e3))["slip"]
    assert b.case == "greatest force"
    assert b.capacity.value / 4e3 == printed("16.0")


# EN 1993-1-8:2005 Table 3.2 (memory).
def test_each_category_asks_for_its_own_checks():
    """A: shear and bearing; B: slip too; C: slip, bearing and a net section at yield, no shear."""
    a, b, c = (answer(full(category=name), loads(shear=10e3)) for name in "ABC")
    assert "slip" not in a
    assert {"slip", "bolt shear", "bolt bearing"} <= set(b)
    assert "bolt shear" not in c
    assert {"slip", "bolt bearing", "net section"} <= set(c)
    assert c["net section"].capacity.value == pytest.approx((140 - 36) * 10 * 275)


def test_only_high_strength_bolts_are_preloaded():
    """4.6 cannot hold by friction."""
    assert "8.8 and 10.9" in answer(full(category="C", bolt_class="4.6"), loads(shear=1e3))["slip"].reason


def test_pull_takes_from_the_clamping():
    """3.9.2: V <= c (F_p - 0.8 F_t); used up where the clause says so, to the last bit."""
    grip, preload = 4 * 0.2 * 0.7 * 800 * 157 / 1.25, 4 * 0.7 * 800 * 157
    shear, tension = 0.5 * grip / 1.5, 0.625 * preload / 1.5
    found = answer(full(category="C"), loads(shear=shear, tension=tension))["slip"]
    assert found.utilisation == pytest.approx(1.0)
    assert found.source == "EN 1993-1-8:2005 3.9.2"


@pytest.mark.parametrize(
    ("keys", "factor"),
    [({}, 1.0), ({"hole": 20.0}, 0.85), ({"slot": "long across"}, 0.7), ({"slot": "long along"}, 0.63)],
)
def test_the_kind_of_hole_counts(keys, factor):
    """Table 3.6 (memory)."""
    assert k_s(group(**keys)) == factor


def test_friction_rests_on_how_the_bolts_were_tightened():
    """Torque alone is not preload in the sense of EN 1993-1-8: the verdict is never a plain `holds`."""
    outcome = check_bolts(full(category="C", thread="out"), loads(shear=5e3), Basis(static=True))
    assert Result("", {}, outcome).verdict == "holds if"


def test_slots_held_by_friction_alone_are_no_pass():
    """A head in slots along the force: slip may hold, nothing bears, so the verdict is incomplete."""
    outcome = check_bolts(full(category="C", slot="long along", end=45.0), loads(shear=5e3), Basis(static=True))
    assert Result("", {}, outcome).verdict == "incomplete"


# Fastener catalogue after VDI 2230 (2001/2003), M16 x 1.5 8.8, 90 % of R_p0.2 (read; bearing face recalled).
@pytest.mark.parametrize(("state", "force", "torque"), [("oiled", 87.6, 218), ("as delivered", 85.5, 244)])
def test_torques_agree_with_the_catalogue(state, force, torque):
    """87.6 kN and 218 N m at 0.12; 85.5 kN and 244 N m at 0.14; the catalogue uses a rounded stress area."""
    found = torque_for(find_size("M16"), find_class("8.8"), state, pitch=1.5, hole=17.5, d_w=22.49)
    assert found.preload / 1e3 == pytest.approx(force, rel=0.008)
    assert found.torque / 1e3 == pytest.approx(torque, rel=0.008)


# VDI 2230 Table A1 (2003), M16 coarse (memory); fastener booklet, M12 8.8 at 0.14 (read).
def test_coarse_threads_agree_with_the_tables():
    """M16: 80.9 kN and 206 N m at 0.12; M12: 41.9 kN at 0.14."""
    found = torque_for(find_size("M16"), find_class("8.8"), "oiled", hole=17.5, d_w=22.49)
    assert found.preload / 1e3 == pytest.approx(80.9, rel=0.008)
    assert found.torque / 1e3 == pytest.approx(206, rel=0.008)
    m12 = torque_for(find_size("M12"), find_class("8.8"), "as delivered")
    assert m12.preload / 1e3 == pytest.approx(41.9, rel=0.005)


def test_the_least_preload_is_the_greatest_over_the_scatter():
    """By hand four times less may be there, by torque wrench half."""
    wrench = torque_for(find_size("M16"), find_class("8.8"), "dry")
    hand = torque_for(find_size("M16"), find_class("8.8"), "dry", "by hand")
    assert wrench.least == pytest.approx(wrench.preload / 2)
    assert hand.least == pytest.approx(hand.preload / 4)


def test_the_proof_strength_of_8_8_changes_above_m16():
    """640 MPa to M16, 660 above (ISO 898-1): the step shows in the table."""
    m16, m20 = (torque_for(find_size(name), find_class("8.8"), "dry") for name in ("M16", "M20"))
    assert m20.preload / m16.preload == pytest.approx(660 * 245 / (640 * 157), rel=0.01)


def test_unmarked_bolts_get_no_torque():
    """What they yield at is not known."""
    with pytest.raises(NotCovered, match="without a mark"):
        torque_for(find_size("M16"), find_class("unknown"), "dry")


def test_the_table_has_a_row_for_every_size_class_and_state():
    """And slipperier threads turn the same torque into more preload."""
    table = torque_table(["M12", "M16"])
    assert len(table) == 2 * 2 * 4
    dry, greased = table[0], table[3]
    assert (dry.state, greased.state) == ("dry", "greased")
    assert dry.torque > greased.torque
    assert dry.preload < greased.preload


def test_category_e_wants_bolts_that_may_be_preloaded():
    """4.6 is refused, 8.8 taken."""
    assert answer(full(category="E", bolt_class="4.6"), loads(tension=1e3))["bolt tension"].verdict == "not checked"
    assert answer(full(category="E"), loads(tension=1e3))["bolt tension"].verdict == "holds"


def test_bolts_that_hold_by_friction_are_not_sheared():
    """Category C: no shear in the bolt at greatest force, and the plate is still judged."""
    found = answer(full(category="C"), loads(shear=20e3))["yield at greatest force"]
    assert found.reason == "net section of the plate"


def test_slots_want_more_to_their_ends_and_edges():
    """1.5 d_0 instead of 1.2, from the centre of the slot's rounded end (Table 3.3, figure 3.1)."""
    assert answer(full(slot="short across"), loads(shear=1e3))["bolt spacing"].utilisation == pytest.approx(27 / 28)
    assert answer(full(slot="long along"), loads(shear=1e3))["bolt spacing"].utilisation == pytest.approx(27 / 24)


def _all_four(part, load):
    """Net lengths of the block of all bolts, with tension between the outer lines."""
    found, _ = blocks(part, [load], True, 1.0)
    (one,) = [i for i in range(len(found.bolts)) if found.bolts[i] == 4 and not found.edge[i]]
    return found.tension[one], found.shear[one]


# EN 1090-2 Table 11 (memory): M16 slots of 22 and 40 mm; 6.2.2.2 and 3.10.2 on what they leave (derived).
@pytest.mark.parametrize(("slot", "across", "along"), [("short", 22, 18), ("long", 40, 18)])
def test_the_plate_loses_the_length_of_its_slots(slot, across, along):
    """Across the force the net section and the block's tension lose it; along the force the block's shear does."""
    load, row = BoltLoads(ULTIMATE, 60e3), 0.9 * 10 * 410 / 1.25
    part = full(slot=f"{slot} across", edge=45.0)
    assert net_section(part, load, BASIS).capacity.value == pytest.approx(row * (170 - 2 * across))
    turned = full(slot=f"{slot} along", end=45.0, pitch=70.0)
    assert net_section(turned, load, BASIS).capacity.value == pytest.approx(min(row * (140 - 36), 140 * 10 * 275))
    assert _all_four(turned, load) == pytest.approx((80 - 18, 2 * (115 - 1.5 * across)))
    assert _all_four(part, load) == pytest.approx((80 - across, 2 * (95 - 1.5 * along)))


def test_a_slot_of_ones_own_length():
    """It counts as it is; longer than its kind, neither bearing nor slip has a factor for it."""
    part = full(slot="long across", slot_length=30.0, edge=45.0, category="B")
    assert net_section(part, BoltLoads(ULTIMATE, 60e3), BASIS).capacity.value == pytest.approx(
        0.9 * (170 - 60) * 10 * 410 / 1.25
    )
    found = answer(replace(part, slot_length=60.0, edge=60.0), loads(shear=20e3))
    assert "longer than the 40 mm of EN 1090-2" in found["bolt bearing"].reason
    assert found["slip"].verdict == "not checked"
    assert "no category of EN 1993-1-9 is for a plate with slots" in found["fatigue"].reason


@pytest.mark.parametrize(
    ("keys", "text"),
    [
        ({"slot_length": 30.0}, "stands without `slot`"),
        ({"slot_length": 18.0, "slot": "long along"}, "no longer than the slot is wide"),
        ({"slot": "long along", "pitch": 38.0}, "run into each other"),
        ({"slot": "long along", "end": 19.0}, "break out of the plate"),
    ],
)
def test_slots_that_cannot_be_are_told(keys, text):
    """The slot's own length counts, not its width alone."""
    with pytest.raises(InputError, match=text):
        answer(full(**keys), loads(shear=1e3))
