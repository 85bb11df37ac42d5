"""Half-lap slots of crossing ribs."""

import tomllib
from pathlib import Path

import numpy as np
import pytest

from structcheck.analysis.grillage import Rib, RibLoad, solve_grillage
from structcheck.errors import InputError, NotCovered
from structcheck.shapes.built_up import rib_with_plate
from structcheck.shapes.net import net_section
from structcheck.shapes.slots import Slot, SlotWeld

FILE = Path(__file__).parents[1] / "reference" / "plates.toml"
CASES = {case["id"]: case for case in tomllib.loads(FILE.read_text())["case"]}
E, G = 210e3, 210e3 / 2.6
HALF = Slot(120.0, 12.0, 60.0, 12.5)


def test_a_half_lap_leaves_a_quarter_of_the_modulus():
    """EG-01 (derived): a quarter of W, an eighth of I, half the shear area, and the moments of S355."""
    expected = CASES["EG-01"]["expected"]
    whole_W, whole_I, left = 12 * 120**2 / 6, 12 * 120**3 / 12, HALF.left
    assert whole_W / 1e3 == pytest.approx(float(expected["W_full_cm3"]))
    assert left.Wel_y / 1e3 == pytest.approx(float(expected["W_slot_cm3"]))
    assert left.Wel_y / whole_W == pytest.approx(0.25) and left.Iy / whole_I == pytest.approx(0.125)
    assert left.shear_area("z") / (12 * 120) == pytest.approx(float(expected["ratio_shear"]))
    assert left.Wel_y * 355 / 1e6 == pytest.approx(float(expected["M_slot"]))
    assert left.shear_area("z") * 355 / 3**0.5 / 1e3 == pytest.approx(float(expected["V_kN"]), rel=1e-4)


def beam(soft, shear=G * 5 / 6 * 12 * 120):
    rib = Rib("rib", 400.0, E * 12 * 120**3 / 12, shear, soft=soft)
    return solve_grillage([rib], [], [RibLoad("rib", 50e3, 200.0)])["rib"].deflection[0]


def test_three_slots_make_a_rib_almost_five_times_softer():
    """EG-03 (derived, plane-stress elements): 1.139 mm against 0.2353; a stepped beam has 0.361."""
    rib, expected = CASES["EG-03"]["rib"], CASES["EG-03"]["expected"]
    assert beam(()) == pytest.approx(float(expected["plain"]), rel=1e-3)
    slotted = beam(tuple((x, HALF.give(E)) for x in rib["at"]))
    assert slotted == pytest.approx(float(expected["slotted_2D"]), rel=0.01)
    assert slotted >= float(expected["slotted_2D"])
    assert HALF.equivalent_length == pytest.approx(float(expected["length_per_slot"]), rel=0.01)
    # The stepped beam of the trap: bending alone, I reduced over the slot's width only.
    step = tuple((x, 12.5 / E * (1 / HALF.left.Iy - 1 / (8 * HALF.left.Iy))) for x in rib["at"])
    assert beam(step, shear=float("inf")) == pytest.approx(float(expected["stepped"]), rel=0.015)


def plane_stress(slots, size):
    """Deflection under the middle of a simply supported rib by quadratic plane-stress elements of scikit-fem."""
    skfem = pytest.importorskip("skfem")
    from skfem.helpers import ddot, sym_grad, trace

    x = np.unique(np.concatenate([np.arange(0, 400 + size, size), *([s - 6.25, s + 6.25] for s in slots)]))
    y = np.linspace(0.0, 120.0, round(120 / size) + 1)
    mesh = skfem.MeshQuad.init_tensor(x[x <= 400], y)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    gone = np.zeros(mesh.t.shape[1], dtype=bool)
    for s in slots:
        gone |= (abs(middle[0] - s) < 6.25) & (middle[1] < 60.0)
    mesh = mesh.remove_elements(np.flatnonzero(gone))
    basis = skfem.Basis(mesh, skfem.ElementVector(skfem.ElementQuad2()))
    lame_2, lame_1 = E / 2.6, E * 0.3 / (1 - 0.09)

    @skfem.BilinearForm
    def stiffness(u, v, _):
        return 12 * (2 * lame_2 * ddot(sym_grad(u), sym_grad(v)) + lame_1 * trace(sym_grad(u)) * trace(sym_grad(v)))

    K = stiffness.assemble(basis)
    place = basis.doflocs
    # Ends held in height all up the section, as a beam's; the load spread up the middle section.
    kind = np.zeros(basis.N, dtype=int)
    for dofs, which in ((basis.nodal_dofs, 0), (basis.facet_dofs, 0), (basis.interior_dofs, 0)):
        kind[dofs[1::2].ravel()] = which + 1
    upright = kind == 1
    held = np.flatnonzero(upright & (np.isclose(place[0], 0) | np.isclose(place[0], 400)))
    axial = np.flatnonzero(~upright & np.isclose(place[0], 200.0) & np.isclose(place[1], 120.0))[:1]
    force = np.zeros(basis.N)
    loaded = np.flatnonzero(upright & np.isclose(place[0], 200.0) & (place[1] >= 60.0))
    force[loaded] = 50e3 / len(loaded)
    u = skfem.solve(*skfem.condense(K, force, D=np.concatenate([held, axial])))
    return u[loaded].mean()


def test_plane_stress_elements_find_the_same_give():
    """Slots cut from the edge in tension, elements of 4 mm: within 4 % of the beam with soft places."""
    assert plane_stress((), 10.0) == pytest.approx(beam(()), rel=0.03)
    slotted = plane_stress((100.0, 200.0, 300.0), 4.0)
    assert beam(tuple((x, HALF.give(E)) for x in (100.0, 200.0, 300.0))) == pytest.approx(slotted, rel=0.06)


def test_welds_restore_only_what_they_carry():
    """Two throats of 3.5 mm stand for 7 mm of a 12 mm rib, elastic, without shear; a small weld nothing."""
    closed = HALF.welded(SlotWeld("fillets", 3.5, returned=True))
    # By hand: 720 mm2 at 30 and 420 mm2 at 90 mm.
    centre = (720 * 30 + 420 * 90) / 1140
    second = 12 * 60**3 / 12 + 720 * (centre - 30) ** 2 + 7 * 60**3 / 12 + 420 * (90 - centre) ** 2
    assert closed.Wel_y == closed.Wpl_y == pytest.approx(second / (120 - centre))
    assert HALF.left.Wpl_y < closed.Wel_y < 12 * 120**2 / 6
    assert closed.shear_area("z") == HALF.left.shear_area("z") and closed.It == HALF.left.It
    assert HALF.welded(SlotWeld("fillets", 1.0, returned=True)).A == HALF.left.A


def test_a_weld_never_restores_more_than_the_whole_rib():
    """Whatever its length; all its depth in full penetration gives the whole rib again."""
    for depth in (20.0, 60.0, 90.0):
        slot = Slot(120.0, 12.0, depth, 12.5)
        for length in np.linspace(1.0, depth, 15):
            for weld in (SlotWeld("butt", None, length, True), SlotWeld("fillets", 4.0, length)):
                closed = slot.welded(weld)
                assert closed.Wel_y <= 12 * 120**2 / 6 * (1 + 1e-9) and slot.left.Wpl_y <= closed.Wpl_y
                assert closed.Iy <= 12 * 120**3 / 12 * (1 + 1e-9)
    assert HALF.welded(SlotWeld("butt", returned=True)).Wel_y == pytest.approx(12 * 120**2 / 6)


def test_with_a_top_plate_slot_from_the_plate_side():
    """The rib slotted beneath its plate keeps more of the modulus at its tip than the rib slotted from the tip."""
    whole = rib_with_plate(120.0, 12.0, 20.0, 150.0)
    low, high = whole.edges[2], whole.edges[2] + 120.0
    from_tip = net_section(whole, [(-6, 6, low, low + 60)])
    from_plate = net_section(whole, [(-6, 6, high - 60, high)])
    assert from_plate.Wel_y > 1.5 * from_tip.Wel_y


def test_the_give_is_known_for_half_depth_only():
    """Other depths are not covered; a slot through the rib is refused."""
    with pytest.raises(NotCovered, match="half the rib's depth"):
        Slot(120.0, 12.0, 80.0, 12.5).give(E)
    with pytest.raises(InputError, match="cuts the rib through"):
        Slot(120.0, 12.0, 120.0, 12.5)
