"""The rows that are left of many judge no part more kindly than all of them would."""

from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as arrays

from structcheck.checks.basis import Basis, Case
from structcheck.checks.bolts import check_bolts
from structcheck.checks.section_resistance import Station, check_member_section
from structcheck.checks.weld_group import RunGroupLoads, check_run_group
from structcheck.materials.steels import find_steel
from structcheck.press import joints, schema
from structcheck.press.frame.envelope import Combination, Level, Sampled, levelled, reduce
from structcheck.press.frame.off_centre import Position
from structcheck.press.frame.own_weight import NOTHING
from structcheck.press.frame.ringed import forces_at, spot_of
from structcheck.press.frame.understood import part_of
from structcheck.press.frame.words import EndForces, FrameAnswer, FramePart
from structcheck.press.joint_kinds import run_group_of
from structcheck.press.joint_schema import WeldGroupTable
from structcheck.press.parts import bolt_group
from structcheck.press.placed_welds import placed_weld, placed_weld_group, run_group
from structcheck.press.reading import describe
from structcheck.press.setting import Setting
from structcheck.shapes.library import look_up

BASIS = Basis()
SETTING = Setting(BASIS)
CASE = Case("ultimate", "ultimate")
SIZES = np.array([4e3, 4e3, 2e4, 3e5, 1e6, 3e5])
OF_MEMBER = np.array([2e5, 2e4, 6e4, 5e5, 8e6, 2e6])
STEPS = st.sampled_from([-1.0, -0.6, -0.02, 0.0, 0.01, 0.5, 1.0])
ROWS = arrays.arrays(float, st.tuples(st.integers(1, 8), st.just(6)), elements=STEPS)
FEW = settings(max_examples=60, deadline=None)


def reduced(values: np.ndarray) -> tuple[EndForces, ...]:
    """What a frame's answer keeps of the rows of a place."""
    positions = [Position(f"row {number}", (), ()) for number in range(len(values))]
    combined = [Combination(position, "", np.zeros(0)) for position in positions]
    found = SimpleNamespace(combined=combined, levels=(Level("ultimate", 1.0),), own=NOTHING)
    straight = SimpleNamespace(bent={})
    return forces_at(found, spot_of(values.T), SimpleNamespace(turned=False), straight, ("head", [(0.0, "right")]))


def answer_of(rows: tuple[EndForces, ...]) -> FrameAnswer:
    """A frame that has one joint."""
    table = SimpleNamespace(turned=False, width=None)
    head = FramePart(look_up("IPE 160").section, "S235", 1, 800.0, "beam", table)
    return FrameAnswer({}, {"head/left": rows}, members={"head": head})


def assert_no_kinder(kept, whole) -> None:
    """Each check that all rows give a number is given no smaller one by the rows kept."""
    uses = {f.check: f.utilisation for f in kept.findings if f.utilisation is not None}
    for finding in whole.findings:
        if finding.utilisation:
            assert uses[finding.check] >= finding.utilisation * (1 - 1e-6), finding.check


# ---- members ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "turned", "twisted"),
    [("UPN 120", False, False), ("UPN 120", True, False), ("IPE 160", False, False), ("RHS 100x60x5", False, True)],
)
@FEW
@given(values=ROWS)
def test_members(name, turned, twisted, values):
    """Beams and uprights, as they stand and turned: every check of the section."""
    values = values * OF_MEMBER * [1, 1, 1, float(twisted), 1, 1]
    part = part_of("m", look_up(name).section, 1, turned, "S235")
    combined = [Combination(Position(f"row {n}", (), ()), "", np.zeros(0)) for n in range(len(values))]

    def make(_, case, place, f):
        N, V_y, V_z, T, M_y, M_z = f
        V_y, V_z, M_y, M_z = (V_z, V_y, M_z, M_y) if turned else (V_y, V_z, M_y, M_z)
        return Station(case, "here", N, V_y, V_z, T, M_y, M_z)

    rows = Sampled(levelled(values, part.stress_of_unit), np.zeros(len(values)), np.arange(len(values)))
    kept = reduce(rows, combined, [Level("ultimate", 1.0)], make, part.signed, apart=3)
    whole = [make(None, CASE, 0.0, row) for row in values]
    steel = find_steel("S235")
    judged = (check_member_section("m", part.section, steel, 1, rows, BASIS) for rows in (kept, whole))
    assert_no_kinder(*judged)


# ---- bolts -----------------------------------------------------------------------------------

PLAIN = {"rows": 2, "columns": 2, "pitch": "60 mm", "gauge": "70 mm"}
LOPSIDED = {"layout": [["0 mm", "0 mm"], ["70 mm", "0 mm"], ["0 mm", "60 mm"], ["25 mm", "110 mm"]]}


def bolts(**more) -> schema.BoltsTable:
    """A group at the corner of a frame."""
    given = {"name": "b", "at": ["head/left"], "size": "M16", "class": "8.8", "plate": "12 mm", "steel": "S235"}
    given |= {"end": "35 mm", "edge": "35 mm", "ply": "12 mm", "exposed": False, "plate_runs": "along"}
    return describe(schema.BoltsTable, given | more)


@pytest.mark.parametrize("joint", ["lap", "end plate"])
@pytest.mark.parametrize("layout", [PLAIN, LOPSIDED, PLAIN | {"far_end": "25 mm"}], ids=["plain", "lopsided", "short"])
@FEW
@given(values=ROWS)
def test_bolts(layout, joint, values):
    """Bolts and their plate, alike from all sides or not: shear, pull and both in the same bolt, bearing, tearing."""
    table = bolts(joint=joint, **layout)
    values = values * SIZES
    kept = joints.placed_bolts(table, answer_of(reduced(values)), SETTING)
    words = joints._through_lap if joint == "lap" else joints._through_end_plate
    exact = [words(EndForces(CASE, *row), 0.0) for row in values]
    if table.layout is not None:
        exact = [turned for load in exact for turned in joints._mirrored(load)]
    assert_no_kinder(kept, check_bolts(bolt_group(table, SETTING), exact, BASIS))


# ---- welds -----------------------------------------------------------------------------------


def exact_runs(values: np.ndarray) -> list[RunGroupLoads]:
    """Every row with its own signs, in the axes of a weld group at the left end of a beam."""
    return [RunGroupLoads(CASE, (N, V_y, -V_z), (0.0, 0.0, 0.0), (T, -M_y, M_z)) for N, V_y, V_z, T, M_y, M_z in values]


@pytest.mark.parametrize("method", ["simplified", "directional"])
@FEW
@given(values=ROWS)
def test_weld_groups_in_three_dimensions(method, values):
    """An L of runs in a plane and one beside it: nothing about it is symmetric."""
    run = {"throat": "4 mm", "sides": "one"}
    ends = [((0, 0, 0), (0, 0, 90)), ((0, 0, 0), (0, 60, 0)), ((30, 60, 20), (90, 60, 20))]
    runs = [{"start": [f"{x} mm" for x in a], "end": [f"{x} mm" for x in b]} | run for a, b in ends]
    given = {"name": "w", "at": ["head/left"], "steel": "S235", "inspected": True, "method": method, "runs": runs}
    given |= {"gusset": True}
    table = describe(WeldGroupTable, given)
    values = values * SIZES
    kept = placed_weld_group(table, answer_of(reduced(values)), SETTING)
    assert_no_kinder(kept, check_run_group(run_group_of(table, SETTING), exact_runs(values), BASIS))


@FEW
@given(values=ROWS)
def test_upright_runs_at_a_corner(values):
    """Two runs side by side, 40 mm from where the frame's force is taken, to one side or the other."""
    given = {"name": "w", "at": ["head/left"], "throat": "4 mm", "length": "90 mm", "runs": 2, "spacing": "60 mm"}
    given |= {"steel": "S235", "inspected": True, "eccentricity": "40 mm", "joint": "lap"}
    table = describe(schema.WeldTable, given)
    values = values * SIZES
    kept = placed_weld(table, answer_of(reduced(values)), SETTING)
    loads = [RunGroupLoads(CASE, (N, V_y, V_z), (40.0, 0.0, 0.0), (T, M_y, M_z)) for N, V_y, V_z, T, M_y, M_z in values]
    assert_no_kinder(kept, check_run_group(run_group(table, answer_of(reduced(values)), SETTING), loads, BASIS))
