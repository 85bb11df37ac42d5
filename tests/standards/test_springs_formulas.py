"""Spring formulas against published and remembered values; source and provenance stand in reference/springs.toml."""

import math

import numpy as np
import pytest

from structcheck.analysis.springs import rate_in_series, rate_side_by_side
from structcheck.materials.wires import find_wire
from structcheck.standards import en13906_1 as en
from structcheck.standards import handbook_springs as handbook
from tests.printed import printed
from tests.reference.reading import case


def wahl_stress(force, D, d):
    return handbook.wahl_factor(D / d) * en.shear_stress(force, D, d)


def test_rate_of_the_base_spring():
    """SPR-01 (derived): wire 5, mean 40, 8 coils, 12.4 N/mm."""
    inputs, expected = case("springs", "SPR-01")
    assert en.spring_rate(**inputs) == printed(expected["R"])


def test_rate_and_factors_of_a_misprinted_example():
    """SPR-02 Jindal 8-1 (read): the printout divided whole numbers; the right values are believed."""
    i, expected = case("springs", "SPR-02")
    rate = en.spring_rate(i["G"], i["d"], i["D"], i["n"])
    assert handbook.direct_shear_factor(i["D"] / i["d"]) == printed(expected["K_s"])
    assert handbook.wahl_factor(i["D"] / i["d"]) == printed(expected["K_W"])
    assert rate == printed(expected["R"])
    assert i["F"] / rate == printed(expected["s"])


def test_wahls_factor_against_a_printed_table():
    """SPR-05 Bhandari 10.3 (read)."""
    _, expected = case("springs", "SPR-05")
    for index, factor in expected.items():
        assert handbook.wahl_factor(float(index)) == printed(factor), index


def test_squared_and_ground_design_example():
    """SPR-03 Bhandari 10.1 (read): wire from half of S_ut with Wahl's factor, coils from the rate."""
    i, expected = case("springs", "SPR-03")
    allowed = 0.5 * i["S_ut"]
    d_min = math.sqrt(8 * handbook.wahl_factor(i["w"]) * i["F"] * i["w"] / (math.pi * allowed))
    assert d_min == printed(expected["d_min"])
    d, D, n = (float(expected[key]) for key in ("d", "D", "n"))
    assert math.ceil(d_min) == d and i["w"] * d == D
    assert math.ceil(en.spring_rate(i["G"], d, D, 1.0) * i["s"] / i["F"]) == n
    n_t = n + 2
    deflection = i["F"] / en.spring_rate(i["G"], d, D, n)
    free = en.solid_length_cold_ground(n_t, d) + deflection + (n_t - 1) * i["gap"]
    assert free == printed(expected["L_0"])
    assert free / (n_t - 1) == printed(expected["pitch"])


def test_two_buffer_springs_stop_a_wagon():
    """SPR-08 Bhandari 10.6 (read): half the kinetic energy into each spring."""
    i, expected = case("springs", "SPR-08")
    work = i["m"] * i["v"] ** 2 / 2 * 1e3 / i["count"]
    force = 2 * work / i["s"]
    assert force / i["s"] == printed(expected["R_needed"])
    d_min = math.sqrt(8 * handbook.wahl_factor(i["w"]) * force * i["w"] / (math.pi * 0.5 * i["S_ut"]))
    assert d_min == printed(expected["d_min"])
    d, n = 20.0, float(expected["n"])
    assert en.spring_rate(i["G"], d, i["w"] * d, 1.0) * i["s"] / force == printed(expected["n_exact"])
    rate = en.spring_rate(i["G"], d, i["w"] * d, n)
    assert rate == printed(expected["R"])
    n_t = n + 2
    assert n_t * d + force / rate + (n_t - 1) * i["gap"] == printed(expected["L_0"])
    assert en.spring_work(force / i["s"], i["s"]) == pytest.approx(work)


def test_stress_when_solid_is_not_corrected_for_curvature():
    """SPR-10 (derived on memory): SL fails by half a per cent, SM and SH hold; the corrected stress fails SM too."""
    i, expected = case("springs", "SPR-10")
    rate = en.spring_rate(81500.0, i["d"], i["D"], i["n"])
    solid = en.solid_length_cold_ground(i["n_t"], i["d"])
    force = en.spring_force(rate, i["L_0"], solid)
    stress = en.shear_stress(force, i["D"], i["d"])
    assert (solid, force) == (printed(expected["L_c"]), printed(expected["F_c"]))
    assert stress == printed(expected["tau_c"])
    allowed = {grade: en.permissible_stress_solid(find_wire(grade).R_m(5)) for grade in ("SL", "SM", "SH")}
    assert [allowed[g] == printed(expected[g]) for g in allowed] == [True] * 3
    assert [stress <= allowed[g] for g in allowed] == [False, True, True]
    assert en.corrected_stress(en.stress_correction(8.0), stress) > allowed["SM"]


def test_clearance_of_a_hot_coiled_spring():
    """SPR-13 (memory)."""
    i, expected = case("springs", "SPR-13")
    assert en.clearance_hot(**i) == printed(expected["S_a"])


def test_buckling_threshold_and_its_other_form():
    """SPR-14 (derived): below nu L_0 / D = 2.581 no travel buckles; the same algebra as C_1' and C_2'."""
    i, expected = case("springs", "SPR-14")
    E, G = i["E"], i["G"]
    limit = float(expected["limit"])
    assert en.buckling_radicand(G, E, 1.0, 1.0, limit - 0.001) < 0 < en.buckling_radicand(G, E, 1.0, 1.0, limit + 0.001)
    C_1, C_2 = E / (2 * (E - G)), 2 * math.pi**2 * (E - G) / (2 * G + E)
    assert [printed(expected["C_1"]), printed(expected["C_2"])] == [C_1, C_2]
    slender = 5.0
    ours = en.buckling_travel(1.0, G, E, en.buckling_radicand(G, E, 1.0, 1.0, slender))
    assert ours == pytest.approx(C_1 * (1 - math.sqrt(1 - C_2 / slender**2)))


def test_buckling_travel_by_seat_factor():
    """SPR-15 (memory): 0.5 and 0.7 never, hinged at 48.66 mm, one end free at 9.652 mm."""
    i, expected = case("springs", "SPR-15")
    for nu, travel in expected.items():
        radicand = en.buckling_radicand(i["G"], i["E"], i["D"], float(nu), i["L_0"])
        if travel == "none":
            assert radicand < 0, nu
        else:
            assert en.buckling_travel(i["L_0"], i["G"], i["E"], radicand) == printed(travel), nu


def test_stored_work_and_the_speed_of_what_flies():
    """SPR-18 (derived): 50 J into 0.6 kg is 13 m/s."""
    i, expected = case("springs", "SPR-18")
    assert en.spring_work(i["R"], i["preload"]) / 1e3 == printed(expected["W_preload"])
    full = en.spring_work(i["R"], i["full"]) / 1e3
    assert full == printed(expected["W_full"])
    assert handbook.flying_speed(full, i["m"]) == printed(expected["v"])


def test_outside_diameter_grows():
    """SPR-19 (memory)."""
    i, expected = case("springs", "SPR-19")
    assert en.outside_growth(**i) == printed(expected["growth"])


def test_music_wire_example_in_inches():
    """SPR-20 Shigley 10-1 (memory), to its 0.6 %; the solid length by EN's end rule is 3.7 % more."""
    i, expected = case("springs", "SPR-20")
    d, D = i["d"], i["OD"] - i["d"]
    S_sy = 0.45 * i["A"] / d ** i["m"]
    force = math.pi * d**3 * S_sy * 1e3 / (8 * handbook.bergstraesser_factor(D / d) * D)
    rate = en.spring_rate(i["G"] * 1e3, d, D, i["N_a"])
    L_s = (i["N_t"] + 1) * d
    found = {"S_sy": S_sy, "F": force, "k": rate, "y": force / rate, "L_s": L_s, "L_0": L_s + force / rate}
    found["L_0_limit"] = 2.63 * D / 0.5
    found["pitch"] = (found["L_0"] - 3 * d) / i["N_a"]
    for key, value in found.items():
        assert value == pytest.approx(float(expected[key]), rel=0.006), key
    assert en.solid_length_cold_plain(i["N_t"], d) / L_s == pytest.approx(1.037, abs=0.0005)


def test_bergstraesser_written_two_ways():
    """(w + 0.5) / (w - 0.75) of the standard is (4 w + 2) / (4 w - 3) of the American texts."""
    w = np.linspace(4, 20, 9)
    assert en.stress_correction(w) == pytest.approx(handbook.bergstraesser_factor(w))


def test_valve_spring_by_the_line_of_indian_texts():
    """SPR-22 Bhandari 10.15 (read): S_se 0.22, S_sy 0.45 of S_ut."""
    i, expected = case("springs", "SPR-22")
    w = i["D"] / i["d"]
    tau_m = handbook.direct_shear_factor(w) * en.shear_stress((i["F_2"] + i["F_1"]) / 2, i["D"], i["d"])
    tau_a = handbook.wahl_factor(w) * en.shear_stress((i["F_2"] - i["F_1"]) / 2, i["D"], i["d"])
    S_e, S_y = 0.22 * i["S_ut"], 0.45 * i["S_ut"]
    slope = (S_e / 2) / (S_y - S_e / 2)
    assert S_y * slope / (tau_a + tau_m * slope) == printed(expected["f_s"])


def test_spring_of_given_rate_and_solid_length():
    """SPR-28 Sarkar 8.1 (read): d and D from rate, stress and solid length n d."""
    i, expected = case("springs", "SPR-28")
    # With n = L_c / d and D = pi d^3 tau / 8 F the rate gives d alone.
    d = (8 * (math.pi * i["tau"] / (8 * i["F"])) ** 3 * i["L_c"] * i["R"] / i["G"]) ** -0.25
    D = math.pi * d**3 * i["tau"] / (8 * i["F"])
    assert (d, D) == (printed(expected["d"]), printed(expected["D"]))
    assert en.spring_rate(i["G"], d, D, i["L_c"] / d) == pytest.approx(i["R"])


def test_surge_and_length_of_a_design_example():
    """SPR-29 Singh 8.1 (read): wire, free length, guide needed; half-wave law."""
    i, expected = case("springs", "SPR-29")
    k = handbook.wahl_factor(i["w"])
    assert math.sqrt(8 * k * i["F_2"] * i["w"] / (math.pi * i["tau"])) == pytest.approx(4.151, abs=0.0006)
    d, D, n = i["d"], i["w"] * i["d"], i["n"]
    rate = (i["F_2"] - i["F_1"]) / i["s"]
    assert en.spring_rate(i["G"], d, D, 1.0) / rate == pytest.approx(13.95, abs=0.005)
    assert en.surge_frequency(d, n, D, i["G"], i["rho"]) == pytest.approx(97.4, rel=0.004)
    assert en.buckling_radicand(i["G"], 206e3, D, 1.0, float(expected["L_0"])) > 0


def test_surge_is_half_the_root_of_rate_over_mass():
    """f = 1/2 sqrt(R / m) (derived) is the factor 3560 with its hidden units."""
    d, D, n, G, rho = 6.0, 42.0, 36.0, 81500.0, 7.85
    mass = handbook.wire_mass(d, D, n, rho * 1e-6)
    by_mass = 0.5 * math.sqrt(en.spring_rate(G, d, D, n) * 1e3 / mass)
    assert en.surge_frequency(d, n, D, G, rho) == pytest.approx(by_mass, rel=1e-3)


def test_coils_and_pitch_in_inches():
    """SPR-31 Wentzell 8.2 (read); its pitch spreads the free length less two wires over all coils."""
    i, expected = case("springs", "SPR-31")
    rate = i["F"] / i["s"]
    assert rate == printed(expected["k"])
    n = en.spring_rate(i["G"], i["d"], i["D"], 1.0) / rate
    assert n == printed(expected["n"])
    assert n + 2 == printed(expected["n_t"])
    assert (i["L_0"] - 2 * i["d"]) / (n + 2) == printed(expected["pitch"])


def test_series_and_parallel():
    """SPR-33 (derived): the softer of a stack takes the larger share."""
    i, expected = case("springs", "SPR-33")
    a, b = i["a"], i["b"]
    stack = rate_in_series((a, b))
    assert stack == printed(expected["series"])
    assert rate_side_by_side((a, b)) == printed(expected["parallel"])
    assert rate_side_by_side((stack, stack)) == printed(expected["two_stacks"])
    assert 100 * stack / a == printed(expected["share_a"])


def test_shear_modulus_when_warm():
    """SPR-35 (memory)."""
    i, expected = case("springs", "SPR-35")
    assert en.warm_shear_modulus(i["G"], i["r"], i["T"]) == printed(expected["G_T"])


def test_square_wire_is_stiffer_than_round():
    """SPR-36 (memory); the torsion constant of a square, 0.1406 b^4, confirms 5.58 to 0.2 %."""
    i, expected = case("springs", "SPR-36")
    square = handbook.square_wire_rate(**i)
    round_wire = en.spring_rate(i["G"], i["b"], i["D"], i["n"])
    assert square == printed(expected["R"])
    assert square / round_wire == printed(expected["ratio"])
    assert 0.1406 / (math.pi / 32) == pytest.approx(square / round_wire, rel=0.002)


@pytest.mark.parametrize(
    ("name", "grade"), [("WIRE-01", "SM"), ("WIRE-01", "DM"), ("WIRE-03", "SH"), ("WIRE-03", "DH")]
)
def test_wire_strengths(name, grade):
    """SM read, SH memory; DM shares SM's strength, DH that of SH."""
    _, expected = case("springs", name)
    assert [find_wire(grade).R_m(float(d)) == printed(R_m) for d, R_m in expected.items()] == [True] * len(expected)


def test_permissible_stress_when_solid_of_three_wires():
    """WIRE-05: 0.56 R_m (memory) on the strengths of SM (read)."""
    _, expected = case("springs", "WIRE-05")
    for d, allowed in expected.items():
        assert en.permissible_stress_solid(find_wire("SM").R_m(float(d))) == printed(allowed)


def test_moduli():
    """WIRE-06 (memory)."""
    from structcheck.checks.coil import G_HOT

    _, expected = case("springs", "WIRE-06")
    assert printed(expected["G_10270_1"]) == find_wire("SM").G
    assert printed(expected["E"]) == find_wire("SM").E
    assert printed(expected["G_10089"]) == G_HOT


def test_cutting_a_coil_raises_the_rate_in_proportion():
    """Half the coils, twice the rate: a cut spring is not the old spring shortened."""
    assert en.spring_rate(81500.0, 12.0, 100.0, 3.0) == pytest.approx(2 * en.spring_rate(81500.0, 12.0, 100.0, 6.0))


def test_a_washer_bends_as_an_annular_plate():
    """Against the plate equation integrated numerically, edges free to turn (derived)."""
    from scipy.integrate import solve_bvp

    def exact(F, a, b, t, E=210e3, nu=0.3):
        D = E * t**3 / 12 / (1 - nu**2)
        field = solve_bvp(
            lambda r, y: np.vstack([y[1], -y[1] / r + y[0] / r**2 - F / (2 * np.pi * r * D)]),
            lambda at_b, at_a: np.array([at_b[1] + nu * at_b[0] / b, at_a[1] + nu * at_a[0] / a]),
            np.linspace(b, a, 100),
            np.zeros((2, 100)),
            tol=1e-8,
            max_nodes=20_000,
        )
        around = D * (field.y[0] / field.x + nu * field.y[1])
        return 6 * np.abs(around).max() / t**2

    for a, b in ((30.0, 10.0), (25.0, 20.0)):
        assert handbook.washer_stress(2e3, a, b, 6.0, math.log(a / b)) == pytest.approx(exact(2e3, a, b, 6.0), rel=1e-6)
