"""Rectangular plates against tables, the double series, other elements, and statics."""

import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis.plate import SIDES, Patch, Plate, solve_plate
from structcheck.errors import InputError, Mechanism
from tests.printed import printed

FILE = Path(__file__).parents[1] / "reference" / "plates.toml"
CASES = {case["id"]: case for case in tomllib.loads(FILE.read_text())["case"]}
SIMPLE, CLAMPED = dict.fromkeys(SIDES, "simple"), dict.fromkeys(SIDES, "clamped")


def pressed(case, cells=(24, 24)):
    """The plate of a case under its pressure, or its point load in the middle."""
    p = case["plate"]
    plate = Plate(p["length"], p["width"], p["t"], dict.fromkeys(SIDES, p.get("edges")))
    middle = (p["length"] / 2, p["width"] / 2)
    if "P" in p:
        return plate, solve_plate(plate, [Patch(p["P"], *middle, 0.0, 0.0)], cells)
    area = p["length"] * p["width"]
    return plate, solve_plate(plate, [Patch(p["q"] * area, *middle, p["length"], p["width"])], cells)


def navier(a, b, t, patch, terms=401):
    """Deflection and moments in the middle by Navier's double series; patch (P, u, v) central."""
    P, u, v = patch
    D, nu = 210e3 * t**3 / (12 * (1 - 0.09)), 0.3
    m = np.arange(1, terms, 2.0)
    M, N = np.meshgrid(m, m, indexing="ij")
    sinc_u, sinc_v = (np.sinc(M * u / (2 * a)), np.sinc(N * v / (2 * b)))
    q = 4 * P / (a * b) * sinc_u * sinc_v
    W = q / (np.pi**4 * D * (M**2 / a**2 + N**2 / b**2) ** 2)
    k_x, k_y = (M * np.pi / a) ** 2, (N * np.pi / b) ** 2
    return W.sum(), D * (W * (k_x + nu * k_y)).sum(), D * (W * (k_y + nu * k_x)).sum()


@pytest.mark.parametrize("name", ["PT-01", "PT-03"])
def test_simply_supported_under_pressure(name):
    """Roark's coefficients (read): w = alpha q a4/(E t3), sigma = beta q a2/t2, the short side for a."""
    case = CASES[name]
    plate, solved = pressed(case)
    expected, q, a = case["expected"], case["plate"]["q"], plate.width
    assert solved.w.max() == printed(expected["w"])
    assert solved.w.max() * plate.E * plate.t**3 / (q * a**4) == printed(expected["alpha"])
    # The series gives 0.61001 where the table prints 0.6102.
    assert 6 * solved.m_y.max() / (q * a**2) == pytest.approx(float(expected["beta"]), rel=5e-4)
    assert solved.at(solved.m_y, plate.length / 2, a / 2) / 1e3 == pytest.approx(float(expected["m_short"]), rel=5e-4)
    assert solved.at(solved.m_x, plate.length / 2, a / 2) / 1e3 == pytest.approx(float(expected["m_long"]), rel=2e-3)


def test_clamped_under_pressure():
    """Timoshenko's coefficients (memory), three figures; the long side's middle is the hardest place."""
    plate, solved = pressed(CASES["PT-05"])
    expected, qa2 = CASES["PT-05"]["expected"], plate.width**2
    assert solved.w.max() == pytest.approx(float(expected["w"]), rel=2e-3)
    assert solved.m_y.min() / qa2 == pytest.approx(float(expected["edge_long"]), abs=1e-4)
    assert solved.at(solved.m_x, 0.0, 200.0) / qa2 == printed(expected["edge_short"])
    assert solved.at(solved.m_y, 300.0, 200.0) / qa2 == printed(expected["centre"])


def test_point_load_on_a_simply_supported_square():
    """Roark's alpha (read); the moment has no limit there and is not asked for."""
    plate, solved = pressed(CASES["PT-07"])
    expected = CASES["PT-07"]["expected"]
    assert solved.w.max() == pytest.approx(float(expected["w"]), rel=1e-3)
    # The point load converges slowly, from below.
    alpha = solved.w.max() * plate.E * plate.t**3 / (100e3 * 400**2)
    assert alpha == pytest.approx(float(expected["alpha"]), rel=1e-3)


def test_point_load_on_a_clamped_plate():
    """Timoshenko's coefficients (memory): deflection, and the moment at the middle of the long edge."""
    _, solved = pressed(CASES["PT-10"])
    expected = CASES["PT-10"]["expected"]
    assert solved.w.max() == pytest.approx(float(expected["w"]), rel=2e-3)
    assert solved.m_y.min() / 100e3 == pytest.approx(float(expected["edge_over_P"]), rel=2e-3)


@pytest.mark.parametrize(("length", "side", "key"), [(400, 80, "beta_A"), (400, 160, "beta_B"), (800, 160, "beta_C")])
def test_patch_in_the_middle(length, side, key):
    """Roark's only legible entry (read) to its printed figures, the others by the double series (derived)."""
    solved = solve_plate(Plate(length, 400, 20, SIMPLE), [Patch(100e3, length / 2, 200, side, side)])
    beta = 6 * solved.at(solved.m_y, length / 2, 200) / 100e3
    # The table has two decimals in its first column; the series gives 1.2745.
    assert beta == pytest.approx(float(CASES["PT-11"]["expected"][key]), rel=5e-3)
    w, _, m_y = navier(length, 400, 20, (100e3, side, side))
    assert solved.w.max() == pytest.approx(w, rel=5e-4)
    assert solved.at(solved.m_y, length / 2, 200) == pytest.approx(m_y, rel=2e-3)


def test_square_on_four_corners():
    """PT-12 (derived by other elements): the copied textbook figure 0.0249 is low, and the test would see it."""
    p, expected = CASES["PT-12"]["plate"], CASES["PT-12"]["expected"]
    corners = tuple((x, y) for x in (0.0, 400.0) for y in (0.0, 400.0))
    plate = Plate(p["length"], p["width"], p["t"], points=corners)
    solved = solve_plate(plate, [Patch(160e3, 200, 200, 400, 400)])
    assert solved.w.max() == pytest.approx(float(expected["w"]), rel=1e-3)
    mid_edge = solved.at(solved.w, 200.0, 0.0) * plate.D / 400**4
    assert mid_edge == pytest.approx(float(expected["alpha_mid_edge"]), rel=1e-3)
    assert solved.at(solved.m_x, 200.0, 200.0) / 1e3 == pytest.approx(float(expected["m"]), rel=2e-3)


def test_against_scikit_fem():
    """Morley elements of scikit-fem on two bearers with an overhang and a patch off centre."""
    skfem = pytest.importorskip("skfem")
    from skfem.helpers import dd, ddot, trace

    length, width, t = 500.0, 200.0, 12.0
    plate = Plate(length, width, t, bearers=(100.0, 400.0))
    ours = solve_plate(plate, [Patch(10e3, 225.0, 100.0, 50.0, 100.0)])
    mesh = skfem.MeshTri.init_tensor(np.linspace(0, length, 121), np.linspace(0, width, 49))
    basis = skfem.Basis(mesh, skfem.ElementTriMorley())

    @skfem.BilinearForm
    def stiffness(u, v, _):
        return plate.D * ((1 - plate.nu) * ddot(dd(u), dd(v)) + plate.nu * trace(dd(u)) * trace(dd(v)))

    @skfem.LinearForm
    def load(v, w):
        x, y = w.x
        return 10e3 / 5000 * ((abs(x - 225) < 25) & (abs(y - 100) < 50)) * v

    held = np.flatnonzero(np.isclose(mesh.p[0], 100.0) | np.isclose(mesh.p[0], 400.0))
    solved = skfem.solve(*skfem.condense(stiffness.assemble(basis), load.assemble(basis), D=basis.nodal_dofs[0, held]))
    w = solved[basis.nodal_dofs[0]]
    assert ours.w.max() == pytest.approx(w.max(), rel=0.01)
    assert ours.w.min() == pytest.approx(w.min(), rel=0.02)


def test_wide_patch_on_two_bearers_bends_like_a_beam():
    """A plate without Poisson's effect is a beam: 5/384, and q L2/8."""
    plate = Plate(600.0, 100.0, 10.0, bearers=(0.0, 600.0), nu=0.0)
    solved = solve_plate(plate, [Patch(6e3, 300.0, 50.0, 600.0, 100.0)])
    EI = 210e3 * 100 * 10**3 / 12
    assert solved.w.max() == pytest.approx(5 * 10 * 600**4 / (384 * EI), rel=1e-6)
    assert solved.m_x.max() * 100 == pytest.approx(10 * 600**2 / 8, rel=1e-4)


@settings(max_examples=15, deadline=None)
@given(
    at=st.floats(100.0, 500.0),
    along=st.floats(20.0, 190.0),
    left=st.floats(0.0, 250.0),
    right=st.floats(350.0, 600.0),
)
def test_bearer_forces_balance_the_load(at, along, left, right):
    """Sum and moment of the bearers meet the load, wherever they stand."""
    plate = Plate(600.0, 150.0, 15.0, bearers=(left, right))
    forces = solve_plate(plate, [Patch(1e4, at, 75.0, along, 60.0)], (12, 8)).bearer_forces
    assert sum(forces) == pytest.approx(1e4, rel=1e-5)
    # A bearer a hair from the plate's end is moved to it.
    assert forces[0] * left + forces[1] * right == pytest.approx(1e4 * at, rel=2e-4)


@pytest.mark.parametrize(
    ("held", "patches"),
    [
        ({"edges": SIMPLE}, [Patch(900.0, 200.0, 150.0, 120.0, 80.0), Patch(-900.0, 200.0, 150.0, 30.0, 30.0)]),
        ({"edges": SIMPLE}, [Patch(900.0, 200.0, 150.0, 0.0, 0.0)]),
        ({"edges": {"left": "clamped", "right": "clamped"}}, [Patch(900.0, 200.0, 90.0, 100.0, 0.0)]),
        ({"bearers": (60.0, 200.0, 340.0)}, [Patch(900.0, 200.0, 150.0, 0.0, 300.0)]),
        ({"bearers": (60.0, 340.0)}, [Patch(450.0, x, 150.0, 40.0, 60.0) for x in (130.0, 270.0)]),
        ({"points": ((40.0, 30.0), (360.0, 30.0), (200.0, 270.0))}, [Patch(900.0, 200.0, 150.0, 100.0, 100.0)]),
    ],
)
def test_half_a_plate_mirrored_is_the_whole(held, patches):
    """A load of no weight off the middle, where the mesh has a line anyway, has the plate solved whole (derived)."""
    plate = Plate(400.0, 300.0, 20.0, **held)
    mirrored = solve_plate(plate, patches)
    corner = Patch(0.0, mirrored.x[3], mirrored.y[3], 0.0, 0.0)
    lines = [Patch(0.0, x, y, 0.0, 0.0) for x in (corner.x, 400.0 - corner.x) for y in (corner.y, 300.0 - corner.y)]
    halves, whole = (solve_plate(plate, [*patches, *some]) for some in (lines, [*lines, replace(corner, force=1e-12)]))
    for table in ("x", "y", "w", "m_x", "m_y", "m_xy", "bearer_forces"):
        one, other = np.array(getattr(halves, table)), np.array(getattr(whole, table))
        assert one == pytest.approx(other, rel=1e-6, abs=1e-9)


def test_refining_the_mesh_converges():
    """Each halving of the elements brings the deflection at least four times nearer."""
    exact, *_ = navier(400, 400, 20, (1e5, 80, 80))
    off = [
        abs(solve_plate(Plate(400, 400, 20, SIMPLE), [Patch(1e5, 200, 200, 80, 80)], (n, n)).w.max() - exact)
        for n in (5, 10, 20)
    ]
    assert off[1] < off[0] / 4 and off[2] < off[1] / 4


def test_a_plate_on_one_bearer_is_a_mechanism():
    """It tips; so does one that nothing holds."""
    for bearers in ((), (300.0,)):
        with pytest.raises(Mechanism, match="can move or tip"):
            solve_plate(Plate(600.0, 150.0, 15.0, bearers=bearers), [Patch(1e4, 300.0, 75.0, 60.0, 60.0)])


def test_no_force_is_lost_where_places_nearly_meet():
    """A patch that ends a hair beside a bearer still presses with all its force."""
    for gap in (0.0, 1e-7, 1e-5, 1e-3, 0.01, 0.1):
        plate = Plate(600.0, 150.0, 15.0, bearers=(100.0, 500.0))
        forces = solve_plate(plate, [Patch(1e4, 200.0 + gap, 75.0, 200.0, 60.0)]).bearer_forces
        assert sum(forces) == pytest.approx(1e4, rel=1e-5)


def test_a_patch_off_the_plate_is_refused():
    """Its force would be lost in silence."""
    with pytest.raises(InputError, match="is not on the plate"):
        solve_plate(Plate(600.0, 150.0, 15.0, SIMPLE), [Patch(1e4, 20.0, 75.0, 60.0, 60.0)])
