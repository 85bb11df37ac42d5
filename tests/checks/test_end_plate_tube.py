"""The wall of a tube behind an end plate."""

import math
from dataclasses import replace

import numpy as np
import pytest

from structcheck.checks.basis import GREATEST
from structcheck.checks.bolts_end_plate import NEEDED, EndPlateLoads, on_joint, on_part_behind, on_web_behind
from structcheck.checks.bolts_prying import Flange, beside_stiffener
from structcheck.checks.end_plate_rows import on_plate
from structcheck.checks.end_plate_tube import elastic_share, face_of
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up
from tests.checks.end_plate_parts import ON_TUBE, answer, rows, supported

F_Y, T, B = 235.0, 6.0, 120.0
F_T = 2 * 0.9 * 800 * 157 / 1.25


# Yield lines with fans, k for a small group (Gomes, Jaspart and Maquoi 1996, memory); limit analysis in
# test_yield_lines.py.
def test_the_face_by_hand():
    """SHS 120x120x6, bolts 60 apart: beta 0.5, a row alone with k = 1."""
    row = F_Y * T**2 / 0.5 * math.pi * math.sqrt(0.5)
    both = F_Y * T**2 / 0.5 * (2 * 35 / 120 + math.pi * math.sqrt(0.5))
    found = rows(ON_TUBE, on_part_behind)
    assert found.forces[0] == pytest.approx(row)
    assert sum(found.forces) == pytest.approx(min(both, 2 * row))
    assert found.limits[0] == "the tube's face yields"


def test_nothing_pries_on_a_tube():
    """The plate bends without leaning on the wall: 2 M_pl / m, half of mode 1 (Table 6.2, memory)."""
    thin = replace(ON_TUBE, plate=8.0)
    m = 30 - 2.5 - 0.8 * 4 * math.sqrt(2)
    gained = beside_stiffener(Flange(8.0, 235.0, m, 30.0), 160 - 7.4 - 115 - 0.8 * 4 * math.sqrt(2))
    alone = min(2 * math.pi * m, 4 * m + 1.25 * 30 + gained)
    assert rows(thin, on_plate).forces[0] == pytest.approx(2 * 0.25 * alone * 8**2 * 235 / m)
    assert rows(ON_TUBE, on_plate).forces[0] <= F_T


def test_a_thin_tube_governs_its_corner():
    """The wall, not the 15 mm plate."""
    found = answer(ON_TUBE, 1e6, shear=10e3)
    assert {c: f.verdict for c, f in found.items() if c != "fatigue"} == dict.fromkeys(NEEDED[:-1], "holds")
    assert found["part behind the end plate"].utilisation > 2 * found["end plate bending"].utilisation
    assert found["fatigue"].verdict == "not checked"
    assert "no category" in found["fatigue"].reason and "hot spot method" in found["fatigue"].reason


def test_bolts_and_plate_on_a_tube_may_fail_in_fatigue():
    """Their own ranges are known, and a failure that is known is told; what holds of them is no pass."""
    light, heavy = (answer(replace(ON_TUBE, plate=6.0), moment)["fatigue"] for moment in (1e5, 9e6))
    assert light.verdict == "not checked"
    assert heavy.verdict == "fails" and "not checked beside it: EN 1993-1-9 has no category" in heavy.reason


def test_a_row_beside_the_pressed_flange_bears_no_moment():
    """Nearer than half the face to the flange in compression its yield lines would meet those under it."""
    low = replace(ON_TUBE, rows=(115.0, 60.0))
    found = rows(low, on_joint)
    assert found.forces[1] == 0.0
    assert "too near" in found.limits[1]
    assert rows(ON_TUBE, on_joint).forces[1] > 0.0


def test_pressing_along_the_tube_weakens_its_face():
    """k_n = 1.3 - 0.4 n / beta (Table 7.10, memory); a stress nobody states leaves it open."""
    free, at = (rows(ON_TUBE, on_part_behind, pressed=n).forces[0] for n in (0.0, 0.8))
    assert at / free == pytest.approx(1.3 - 0.4 * 0.8 / 0.5)
    found = answer(ON_TUBE, 1e6, pressed=None)["part behind the end plate"]
    assert found.verdict == "not checked"
    assert "`behind_stress`" in found.reason
    one, two = answer(ON_TUBE, 1e6, pressed=40.0), answer(ON_TUBE, 2e6, pressed=80.0)
    check = "part behind the end plate"
    assert two[check].utilisation == pytest.approx(2 * one[check].utilisation)


@pytest.mark.parametrize(
    ("part", "words"),
    [
        (supported(ON_TUBE, section=look_up("SHS 120x120x3 cold").section), "outside EN 1993-1-8 Table 7.8"),
        (replace(ON_TUBE, gauge=104.0, width=140.0), "bolts 104 mm apart"),
        (supported(ON_TUBE, past=40.0), "the tube ends within 120 mm"),
        (supported(ON_TUBE, steel=find_steel("A36")), "has no rules"),
    ],
)
def test_outside_its_ranges_a_tube_s_face_is_not_checked(part, words):
    """Never a pass."""
    found = answer(part, 1e6)
    for check in ("part behind the end plate", "web behind the end plate", "moment of the joint"):
        assert found[check].verdict == "not checked"
        assert words in found[check].reason


def test_a_capped_end_is_no_open_end():
    """A plate welded all round the end holds the walls."""
    capped = supported(ON_TUBE, past=40.0, capped=True)
    assert answer(capped, 1e6)["part behind the end plate"].verdict == "holds"


def test_bolts_through_both_walls_press_the_side_walls():
    """Buckling of the side walls counts where the rows press them; the face is the far one, as strong."""
    through = supported(ON_TUBE, through=True)
    thin = supported(through, section=look_up("SHS 120x120x4 cold").section)
    assert rows(through, on_part_behind).forces == rows(ON_TUBE, on_part_behind).forces
    pulled = supported(thin, through=False)
    assert rows(thin, on_web_behind).forces[0] <= rows(pulled, on_web_behind).forces[0]


def test_a_turned_tube_is_bolted_by_its_other_face():
    """RHS 120x80: the face is 120 wide, or 80."""
    tube = look_up("RHS 120x80x6 cold").section
    narrow, wide = (supported(replace(ON_TUBE, gauge=56.0, width=80.0), section=tube, turned=t) for t in (False, True))
    assert rows(narrow, on_part_behind).forces[0] > rows(wide, on_part_behind).forces[0]


def test_thicker_walls_never_bear_less():
    """5, 6, 8 mm."""
    moments = [
        rows(supported(ON_TUBE, section=look_up(f"SHS 120x120x{t} cold").section), on_joint).moment for t in (5, 6, 8)
    ]
    assert moments == sorted(moments)


# Navier's double series for a plate pinned on four sides (Timoshenko and Woinowsky-Krieger, Theory of Plates and
# Shells, section 28, memory): two square patches side by side on a strip that is long beside its width.
def moment_by_series(clear, gauge, head, length, nu=0.3):
    """Von Mises moment per width under the middle of one patch of 1 N."""
    m = np.arange(1, 600)[:, None] * math.pi / length
    n = np.arange(1, 300)[None, :] * math.pi / clear
    x, at = length / 2, ((clear - gauge) / 2, (clear + gauge) / 2)
    along = 2 / m * np.sin(m * x) * np.sin(m * head / 2)
    across = 2 / n * np.sin(n * head / 2) * sum(np.sin(n * y) for y in at)
    w = 4 / (length * clear * head**2) * along * across / (m**2 + n**2) ** 2 * np.sin(m * x) * np.sin(n * at[0])
    m_x, m_y = ((w * (one**2 + nu * other**2)).sum() for one, other in ((m, n), (n, m)))
    return math.sqrt(m_x**2 + m_y**2 - m_x * m_y)


def test_the_elastic_stress_of_the_face_against_a_series():
    """Two bolts and nothing else; the greatest stress lies a little beside a bolt's middle."""
    face = face_of(ON_TUBE)
    one_row = replace(ON_TUBE, rows=(115.0,))
    found = elastic_share(one_row, EndPlateLoads(GREATEST, pull=20e3, pressed=0.0))
    m = moment_by_series(face.b - face.t, 60.0, ON_TUBE.size.d_m, 600.0)
    assert 1.0 <= found / (6 * m * 10e3 / face.t**2 / F_Y) < 1.04


def test_the_face_yields_at_its_bolts_before_its_yield_lines_form():
    """Two thirds of a collapse load are no elastic limit of a plate under point forces."""
    found = answer(ON_TUBE, 1e6)
    assert found["yield at greatest force"].reason.startswith("the tube's face bends")
    assert found["yield at greatest force"].source.startswith("elastic")
    assert found["yield at greatest force"].utilisation > 1.25 * found["part behind the end plate"].utilisation
