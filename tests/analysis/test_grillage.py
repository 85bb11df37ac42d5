"""Crossing ribs."""

import tomllib
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis.beam import PointLoad, solve
from structcheck.analysis.grillage import Crossing, Rib, RibLoad, solve_grillage
from structcheck.errors import InputError, NotCovered
from structcheck.shapes.library import look_up
from tests.printed import printed

FILE = Path(__file__).parents[1] / "reference" / "plates.toml"
CASE = next(case for case in tomllib.loads(FILE.read_text())["case"] if case["id"] == "GR-01")
EI = 210e3 * 12 * 120**3 / 12


def test_the_short_rib_takes_77_percent():
    """GR-01 (derived): shares go with I / L^3."""
    r, expected = CASE["ribs"], CASE["expected"]
    found = solve_grillage(
        [Rib("long", r["L_1"], EI), Rib("short", r["L_2"], EI)],
        [Crossing("long", r["L_1"] / 2, "short", r["L_2"] / 2)],
        [RibLoad("long", r["P"], r["L_1"] / 2)],
    )
    assert found["long"].carried / 1e3 == printed(expected["long_kN"])
    assert found["short"].carried / 1e3 == printed(expected["short_kN"])
    assert found["short"].deflection[0] == printed(expected["w"])
    assert found["short"].greatest_moment / 1e6 == printed(expected["M_short"])
    assert found["long"].greatest_moment / 1e6 == printed(expected["M_long"])


def test_a_bed_of_two_by_three_ribs_agrees_with_a_stiffness_solution():
    """Cubic elements between crossings, heights and slopes unknown, solved apart from the package."""
    spans, at_long, at_short = (600.0, 400.0), (150.0, 300.0, 450.0), (130.0, 270.0)
    ribs = [Rib(f"L{i}", spans[0], EI) for i in range(2)] + [Rib(f"S{j}", spans[1], EI) for j in range(3)]
    crossings = [Crossing(f"L{i}", at_long[j], f"S{j}", at_short[i]) for i in range(2) for j in range(3)]
    found = solve_grillage(ribs, crossings, [RibLoad("L0", 80e3, 150.0), RibLoad("S2", 20e3, 200.0)])

    n = 6  # heights at crossings first, then slopes and the extra height under the second load
    size = n + 40
    K, P = np.zeros((size, size)), np.zeros(size)
    free, count = list(range(n)), n

    def rib_nodes(places, heights):
        nonlocal count
        nodes = []
        for place, height in zip(places, heights, strict=True):
            if height == "new":
                height, count = count, count + 1
                free.append(height)
            slope, count = count, count + 1
            free.append(slope)
            nodes.append((place, height, slope))
        return nodes

    def assemble(nodes):
        for (a, w_1, t_1), (b, w_2, t_2) in pairwise(nodes):
            h = b - a
            k = EI / h**3 * np.array(
                [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h], [-12, -6 * h, 12, -6 * h],
                 [6 * h, 2 * h * h, -6 * h, 4 * h * h]]
            )  # fmt: skip
            ids = [w_1, t_1, w_2, t_2]
            for p, row in zip(ids, k, strict=True):
                for q, value in zip(ids, row, strict=True):
                    if p is not None and q is not None:
                        K[p, q] += value

    for i in range(2):
        assemble(rib_nodes([0, *at_long, 600], [None, 3 * i, 3 * i + 1, 3 * i + 2, None]))
    for j in range(3):
        if j < 2:
            assemble(rib_nodes([0, *at_short, 400], [None, j, 3 + j, None]))
        else:
            nodes = rib_nodes([0, 130, 200, 270, 400], [None, 2, "new", 5, None])
            assemble(nodes)
            P[nodes[2][1]] += 20e3
    P[0] += 80e3
    w = np.zeros(size)
    w[free] = np.linalg.solve(K[np.ix_(free, free)], P[free])
    ours = {load.at: value for load, value in zip(found["L0"].loads, found["L0"].deflection, strict=True)}
    assert [ours[x] for x in at_long] == pytest.approx(w[:3], rel=1e-9)
    other = {load.at: value for load, value in zip(found["L1"].loads, found["L1"].deflection, strict=True)}
    assert [other[x] for x in at_long] == pytest.approx(w[3:6], rel=1e-9)


@settings(max_examples=20, deadline=None)
@given(x=st.floats(100.0, 500.0), y=st.floats(50.0, 350.0), ratio=st.floats(0.1, 10.0), at=st.floats(20.0, 580.0))
def test_ribs_meet_at_the_crossing_and_the_shares_add_up(x, y, ratio, at):
    """Equal deflection where they cross; together they carry the load."""
    ribs = [Rib("one", 600.0, EI, GAs=5e7), Rib("two", 400.0, EI * ratio)]
    found = solve_grillage(ribs, [Crossing("one", x, "two", y)], [RibLoad("one", 1e4, at)])
    assert sum(result.carried for result in found.values()) == pytest.approx(1e4)
    assert found["one"].deflection[-1] == pytest.approx(found["two"].deflection[-1], rel=1e-6, abs=1e-9)


def test_a_soft_place_gives_by_virtual_work():
    """One slot in the middle under the load adds give x (L/4)^2 P."""
    rib = Rib("one", 400.0, EI, soft=((200.0, 1e-9),))
    plain = float(solve(400.0, "simple", [PointLoad(1e4, 200.0)], EI).w(200.0))
    found = solve_grillage([rib], [], [RibLoad("one", 1e4, 200.0)])["one"]
    assert found.deflection[0] == pytest.approx(plain + 1e-9 * 100**2 * 1e4)
    with pytest.raises(NotCovered, match="held at its ends"):
        solve_grillage(
            [Rib("one", 400.0, EI, supports="fixed", soft=((200.0, 1e-9),))], [], [RibLoad("one", 1.0, 200.0)]
        )


def test_torsion_of_flat_ribs_is_nothing_beside_their_bending():
    """Why it is left out: the crossing rib's twist holds this one less than a hundredth as much as its own bending."""
    flat = look_up("FL 120x12").section
    assert flat.It / 2.6 / 400 < 0.01 * 3 * flat.Iy / 400


def test_what_is_not_there_is_refused():
    """Unknown ribs, places off a rib, one name twice: all in one go."""
    with pytest.raises(InputError) as error:
        solve_grillage([Rib("one", 400.0, EI)] * 2, [Crossing("one", 500.0, "two", 10.0)], [RibLoad("one", 1.0, -3.0)])
    assert len(error.value.problems) == 4
