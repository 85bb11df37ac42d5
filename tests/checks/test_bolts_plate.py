"""The plate around the bolts: net section, blocks torn out, spacing, the way the plate runs."""

from dataclasses import replace

import pytest

from structcheck.checks.basis import GREATEST, ULTIMATE
from structcheck.checks.bolts import BoltLoads
from structcheck.checks.bolts_plate import blocks
from structcheck.materials.steels import EN_1993, find_steel
from tests.checks.bolt_parts import answer, full, group, loads
from tests.printed import printed


# Steel Buildings in Europe, Multi-storey, Part 5: Joint Design, p. 5-43 (read).
def test_the_block_of_the_fin_plate_is_among_the_candidates():
    """Five rows and two lines: A_nt 770 mm2, A_nv 2210 mm2."""
    steel = find_steel("S275", strengths=EN_1993)
    keys = {"rows": 5, "columns": 2, "pitch": 70.0, "gauge": 60.0, "end": 40.0, "edge": 50.0}
    part = group(size="M20", steel=steel, **keys)
    found, _ = blocks(part, [BoltLoads(ULTIMATE, 100e3, 80.0)], along_y=True, sign=1.0)
    assert any(
        tension * 10 == pytest.approx(770) and shear * 10 == pytest.approx(2210)
        for tension, shear in zip(found.tension, found.shear, strict=True)
    )


def test_a_block_with_tension_to_both_edges_is_two_with_tension_to_one():
    """Wide between the lines, narrow at the edges: 25 - 9 mm left on each side, as weak together as each alone."""
    part = full(gauge=200.0, edge=25.0, end=25.0, pitch=45.0)
    found, (force,) = blocks(part, [BoltLoads(ULTIMATE, 60e3)], along_y=True, sign=1.0)
    deep = [i for i in range(len(found.bolts)) if found.edge[i] and found.bolts[i] == 2 and found.tension[i] < 20]
    assert [found.tension[i] for i in deep] == pytest.approx([25 - 9] * 2)
    assert sum(force[i] for i in deep) == pytest.approx(60e3)
    assert answer(part, loads(shear=60e3))["block tearing"].reason.endswith("edge")


def test_half_the_tension_counts_where_the_force_stands_beside_the_centre():
    """3.10.2(3)."""
    assert answer(full(), loads(shear=60e3))["block tearing"].source == "EN 1993-1-8:2005 3.10.2(2)"
    assert answer(full(), loads(shear=60e3, eccentricity=1.0))["block tearing"].source == "EN 1993-1-8:2005 3.10.2(3)"


# Steel Buildings in Europe, Multi-storey, Part 5: Joint Design, p. 5-96 (read; the width of 260 mm inferred).
def test_the_net_section_of_the_column_splice():
    """260 x 12 with two holes of 22: 802 kN."""
    steel = find_steel("S275", strengths=EN_1993)
    keys = {"rows": 3, "columns": 2, "pitch": 160.0, "gauge": 150.0, "end": 80.0, "edge": 55.0}
    part = group(size="M20", steel=steel, plate=12.0, **keys)
    assert answer(part, loads(shear=10e3))["net section"].capacity.as_dict()["value"] == printed("802")


def test_spacing_is_judged_by_the_worst_distance():
    """Table 3.3: 43.2 mm asked across, 45 given; too close along fails; 14 t only where it applies."""
    assert answer(full(gauge=45.0), loads(shear=1e3))["bolt spacing"].utilisation == pytest.approx(43.2 / 45)
    assert answer(full(pitch=39.0), loads(shear=1e3))["bolt spacing"].verdict == "fails"
    wide = full(plate=5.0)
    assert answer(wide, loads(shear=1e3))["bolt spacing"].utilisation == pytest.approx(80 / 70)
    assert answer(replace(wide, exposed=False), loads(shear=1e3))["bolt spacing"].verdict == "holds"
    assert answer(full(edge=85.0, exposed=True), loads(shear=1e3))["bolt spacing"].utilisation == pytest.approx(85 / 80)


def test_a_plate_that_holds_one_way_only_is_not_checked():
    """Beside the centre, and nobody says whether it is a bracket: neither a pass nor a failure is known."""
    along, across = (answer(full(plate_runs=way), loads(32160.0, 100.0))["net section"] for way in ("along", "across"))
    unknown = answer(full(), loads(32160.0, 100.0))["net section"]
    assert {along.verdict, across.verdict} == {"holds", "fails"}
    assert unknown.verdict == "not checked"
    assert unknown.reason.startswith("over (") and "holds (" in unknown.reason
    assert unknown.reason.endswith("state plate_runs")


def test_holes_beside_the_middle_bend_what_is_left_of_the_plate():
    """A line 25 mm from one edge of 90 mm: 50 kN at 25 mm from the centroid of what is left, 191.4 MPa (by hand).

    Net 720 mm2 whose centroid is 5 mm off the middle; I = 10 (90^3 - 18^3) / 12 - 180 20^2 - 720 5^2 = 512 640 mm4.
    """
    part = full(columns=1, gauge=None, edge=25.0, far_edge=65.0)
    found = answer(part, [BoltLoads(GREATEST, 50e3)])["yield at greatest force"]
    assert found.demand.value == pytest.approx(50e3 / 720 + 50e3 * 25 * 50 / 512_640, rel=1e-4)
