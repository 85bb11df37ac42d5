"""End plates row by row, and threaded rods."""

import math
from dataclasses import replace

import pytest

from structcheck.checks.basis import GREATEST, ULTIMATE, Basis, from_rated
from structcheck.checks.bolts_end_plate import EndPlate, EndPlateLoads, check_end_plate, rows_behind, rows_of_plate
from structcheck.checks.bolts_prying import Flange, beside_stiffener
from structcheck.checks.bolts_rod import NEEDED, Rod, RodLoads, check_rod
from structcheck.errors import InputError
from structcheck.materials.bolts import find_class, find_size
from structcheck.materials.steels import find_steel
from structcheck.standards import tightening as thread
from tests.printed import printed

BASIS = Basis()
S235 = find_steel("S235")

# An invented corner: IPE 160, plate 15 x 120, four M16 8.8 at gauge 70, rows 40 inside the flanges.
FLUSH = EndPlate(
    name="corner",
    size=find_size("M16"),
    bolt_class=find_class("8.8"),
    steel=S235,
    plate=15.0,
    width=120.0,
    depth=160.0,
    flange=7.4,
    flange_width=82.0,
    web=5.0,
    gauge=70.0,
    rows=(120.0, 40.0),
    top=165.0,
    web_throat=3.0,
    flange_throat=4.0,
)
EXTENDED = replace(FLUSH, rows=(200.0, 120.0, 40.0), top=230.0)


def answer(part, moment=0.0, pull=0.0, shear=0.0):
    loads = from_rated(BASIS, lambda case, f: EndPlateLoads(case, moment * f, pull * f, shear * f))
    return {f.check: f for f in check_end_plate(part, loads, BASIS).findings}


def gained(m, e):
    """What the row beside the tension flange gains from it (Table 6.6; alpha against a programme: test_yield_lines)."""
    return beside_stiffener(Flange(15.0, 235.0, m, e), 160 - 7.4 - 120 - 0.8 * 4 * math.sqrt(2))


# EN 1993-1-8:2005 6.2.4, by hand (derived): m 29.1, e 25, l_eff 147.7 and what the flange beside it adds.
def test_a_flush_plate_by_hand():
    """The top row fails plate and bolts together; the second gets what the group of both leaves."""
    m = 35 - 2.5 - 0.8 * 3 * math.sqrt(2)
    alone, bolts = 4 * m + 1.25 * 25 + gained(m, 25), 2 * 0.9 * 800 * 157 / 1.25
    assert gained(m, 25) > 5
    rows = rows_of_plate(replace(FLUSH, flange_width=200.0), BASIS)
    assert rows.forces[0] == pytest.approx((2 * 0.25 * alone * 15**2 * 235 + 25 * bolts) / (m + 25))
    assert rows.limits[0].startswith("mode 2")
    both = (2 * 0.25 * (alone + 80) * 15**2 * 235 + 25 * 2 * bolts) / (m + 25)
    assert sum(rows.forces) == pytest.approx(min(both, (alone + 80) * 5 * 235))
    assert rows.levers == pytest.approx((120 - 3.7, 40 - 3.7))


def test_the_flange_in_compression_limits_the_sum():
    """Pull above, push below: 82 x 7.4 x 235 N and no more."""
    weak = replace(EXTENDED, flange_width=40.0)
    assert sum(rows_of_plate(weak, BASIS).forces) <= 40 * 7.4 * 235 * (1 + 1e-9)
    assert "flange in compression" in rows_of_plate(weak, BASIS).limits


def test_a_row_beyond_the_flange_adds_moment():
    """Its T-stub bends about the flange (m_x), and no group runs across the flange."""
    assert rows_of_plate(EXTENDED, BASIS).moment > rows_of_plate(FLUSH, BASIS).moment
    m_x = 40 - 0.8 * 4 * math.sqrt(2)
    assert rows_of_plate(EXTENDED, BASIS).forces[0] <= 4 * 0.25 * 60 * 15**2 * 235 / m_x * (1 + 1e-9)


def test_a_thicker_plate_or_bolt_never_bears_less():
    """More material, no less moment."""
    base = rows_of_plate(EXTENDED, BASIS).moment
    assert rows_of_plate(replace(EXTENDED, plate=20.0), BASIS).moment >= base * (1 - 1e-9)
    assert rows_of_plate(replace(EXTENDED, bolt_class=find_class("10.9")), BASIS).moment >= base * (1 - 1e-9)


def test_what_is_behind_must_be_described():
    """Without the flange behind it the corner is not checked; its web never is here."""
    found = answer(FLUSH, moment=5e6)
    assert found["end plate bending"].verdict == "holds"
    assert found["part behind the end plate"].verdict == "not checked"
    assert found["web behind the end plate"].verdict == "not checked"
    thin = replace(FLUSH, behind=6.0, behind_lever=25.0, behind_edge=25.0)
    assert rows_behind(thin, BASIS).moment < rows_of_plate(FLUSH, BASIS).moment


def test_utilisation_grows_in_step_with_the_actions():
    """Moment, pull and shear together, doubled."""
    one, two = answer(FLUSH, 2e6, 20e3, 10e3), answer(FLUSH, 4e6, 40e3, 20e3)
    for check in ("end plate bending", "bolt shear and tension", "yield at greatest force"):
        assert two[check].utilisation == pytest.approx(2 * one[check].utilisation), check


def test_a_corner_yields_at_two_thirds_of_its_strength():
    """EN 1993-1-8 6.3.1(6): at 1.25 R against 1.5 R, yield governs by a quarter."""
    found = answer(FLUSH, moment=5e6)
    ratio = found["yield at greatest force"].utilisation / found["end plate bending"].utilisation
    assert ratio == pytest.approx(1.25)


def test_a_moment_the_other_way_is_not_covered():
    """The rows are described from one side."""
    loads = (EndPlateLoads(ULTIMATE, -5e6), EndPlateLoads(GREATEST, -4e6))
    found = {f.check: f.verdict for f in check_end_plate(FLUSH, loads, BASIS).findings}
    assert found["end plate bending"] == "not checked"


@pytest.mark.parametrize(
    ("keys", "text"),
    [
        ({"rows": (155.0, 40.0)}, "puts a head on a flange or its weld"),
        ({"gauge": 25.0}, "puts the heads on the web's weld"),
        ({"width": 80.0}, "leaves no edge beside the bolts"),
        ({"top": 125.0}, "ends the plate in a hole"),
        ({"rows": (220.0, 190.0), "top": 260.0}, "is a second row beyond the flange"),
        ({"rows": (100.0, 90.0)}, "puts heads on those of the row at 90 mm"),
        ({"rows": (120.0, -40.0), "past": 10.0}, "is off the plate's lower end"),
        ({"grip": 5.0}, "is less than the plates clamped"),
    ],
)
def test_heads_must_clear_flange_web_and_edge(keys, text):
    """A spanner and a head need room."""
    with pytest.raises(InputError, match=text):
        answer(replace(FLUSH, **keys), moment=1e6)


ROD = Rod(name="rod", size=find_size("M20"), bolt_class=find_class("4.6"), length=900.0, count=4)


def rods(part, pull):
    loads = from_rated(BASIS, lambda case, f: RodLoads(case, pull * f))
    outcome = check_rod(part, loads, BASIS)
    return {f.check: f for f in outcome.findings}


def test_a_rod_pulls_on_its_stress_area():
    """M20 4.6: 0.9 x 400 x 245 / 1.25 = 70.6 kN a rod, not the 314 mm2 of the shank (Table 3.4, derived)."""
    found = rods(ROD, 100e3)
    assert set(found) == set(NEEDED)
    assert found["bolt tension"].capacity.value / 4e3 == printed("70.6")
    assert rods(replace(ROD, rolled=False), 100e3)["bolt tension"].capacity.value / 4e3 == printed("60.0")


def test_a_thin_nut_strips():
    """A nut 5 mm high strips before the rod breaks; a standard one does not govern."""
    thin = rods(replace(ROD, nut=5.0), 100e3)["thread stripping"]
    assert thin.utilisation > rods(ROD, 100e3)["thread stripping"].utilisation
    assert rods(replace(ROD, nut=20.0), 100e3)["thread stripping"].reason.startswith("a standard nut")
    lower = [
        rods(replace(ROD, nut=nut), 100e3)["thread stripping"].utilisation for nut in (20.0, 16.0, 15.9, 10.0, 5.0)
    ]
    assert lower == sorted(lower), "a lower nut never bears more"


def test_a_tapped_hole_is_judged_by_its_own_steel():
    """Without its steel it is no pass; with it the weaker thread governs."""
    assert rods(replace(ROD, tapped=20.0), 50e3)["thread stripping"].verdict == "not checked"
    strong = replace(ROD, bolt_class=find_class("10.9"), tapped=20.0, tapped_steel=S235)
    assert rods(strong, 50e3)["thread stripping"].reason == "thread of the plate"
    both = rods(replace(ROD, tapped=40.0, tapped_steel=find_steel("S355"), nut=5.0), 50e3)["thread stripping"]
    assert both.capacity == rods(replace(ROD, nut=5.0), 50e3)["thread stripping"].capacity
    assert both.reason.endswith("the nut")


def test_a_seat_out_of_square_bends_the_rod():
    """One degree over 900 mm adds 2 E d_s theta / L = 144 MPa (beam theory, derived)."""
    tilted, straight = rods(replace(ROD, tilt=math.radians(1)), 100e3), rods(ROD, 100e3)
    more = 2 * 210e3 * math.sqrt(4 * 245 / math.pi) * math.radians(1) / 900
    for check in ("yield at greatest force", "fatigue"):
        assert tilted[check].demand.value - straight[check].demand.value == pytest.approx(more), check


def test_threads_shear_on_more_than_half_their_cylinder():
    """M16 coarse: 0.75 of the bolt's and 0.875 of the nut's cylinder (ISO 724 profile, derived)."""
    bolt = thread.bolt_thread_shear_area(10.0, 2.0, 13.835, 14.701)
    nut = thread.nut_thread_shear_area(10.0, 2.0, 16.0, 14.701)
    assert bolt / (math.pi * 13.835 * 10) == pytest.approx(0.75, abs=0.001)
    assert nut / (math.pi * 16 * 10) == pytest.approx(0.875, abs=0.001)


# EN 1993-1-8:2005 6.2.4, e_min (memory): n is no more than either of the two parts reaches beyond the bolt.
def test_a_narrower_flange_behind_shortens_the_prying_lever_of_the_plate():
    """Mode 2 by hand (derived) with n = 15 mm in place of the plate's own 25 mm; a wider flange changes nothing."""
    m, bolts = 35 - 2.5 - 0.8 * 3 * math.sqrt(2), 2 * 0.9 * 800 * 157 / 1.25
    alone = 4 * m + 1.25 * 15 + gained(m, 15)
    narrow, wide = (
        rows_of_plate(replace(FLUSH, flange_width=200.0, behind_edge=edge), BASIS).forces[0] for edge in (15.0, 60.0)
    )
    assert narrow == pytest.approx((2 * 0.25 * alone * 15**2 * 235 + 15 * bolts) / (m + 15))
    assert narrow < wide == pytest.approx(rows_of_plate(replace(FLUSH, flange_width=200.0), BASIS).forces[0])
