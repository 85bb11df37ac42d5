"""C-frames and O-frames cut from plate."""

import math

import pytest

from structcheck.errors import InputError
from structcheck.press.frame import own_weight
from structcheck.press.frame.plates import Cut, stress_of, stresses_of
from tests.press.frames import VALUES, answer, tables


@pytest.fixture(autouse=True)
def _weightless(monkeypatch):
    """What the jack's force alone does: own weight never counts."""
    monkeypatch.setattr(own_weight, "LIGHT", 1.0)


THROAT = VALUES["curved_rectangle"]
E, G = 210_000.0, 81_000.0
C_FRAME = {
    "frame": {"shape": "C", "opening": "300 mm"},
    "plate": {
        "thickness": "40 mm",
        "steel": "S355",
        "back": "200 mm",
        "upper": "200 mm",
        "lower": "200 mm",
        "radius": "150 mm",
        "reach": "150 mm",
    },
}
O_FRAME = {
    "frame": {"shape": "O", "opening": "400 mm"},
    "plate": {
        "thickness": "30 mm",
        "steel": "S355",
        "back": "100 mm",
        "upper": "160 mm",
        "lower": "160 mm",
        "radius": "30 mm",
        "window": "300 mm",
    },
}
JACK = {"rating": "50 kN", "relief": "50 kN", "offset": "0 mm", "offset_across": "0 mm"}


def test_the_throat_of_a_c_frame_has_the_curved_beams_stress():
    """70.5 MPa inside, not the straight bar's 53.1 (derived, Winkler-Bach)."""
    found = answer(C_FRAME, JACK).outcome.findings
    corner = next(f for f in found if (f.part, f.check) == ("upper corner", "yield at greatest force"))
    assert corner.demand.value == pytest.approx(THROAT["sigma_inner"], rel=THROAT["tolerance"])
    assert corner.reason == "where the back meets the corner"


def test_the_back_is_pulled_and_bent_by_the_reach():
    """N = F, M = F (reach + back / 2) (statics)."""
    got = answer(C_FRAME, JACK)
    back = next(row for row in got.stations["back"] if row.case.limit == "ultimate")
    assert (back.N, back.M_y) == (pytest.approx(75e3), pytest.approx(75e3 * 250))


def test_an_offset_away_from_the_back_lengthens_the_reach():
    """Off centre to the right is the harder way."""
    got = answer(C_FRAME, JACK | {"offset": "50 mm"})
    most = max(row.M_y for row in got.stations["back"] if row.case.limit == "ultimate")
    assert most == pytest.approx(75e3 * 300)


def test_the_yawn_of_a_c_frame_is_that_of_its_bars():
    """Bending 2 F a^3 / 3EI + F a^2 h / EI, stretch F h / EA, by hand for equal depths (derived)."""
    text = next(t for t in answer(C_FRAME, JACK).outcome.answers if t.startswith("yawn"))
    a, h, inertia, area = 250.0, 500.0, 40 * 200**3 / 12, 8000.0
    bending = 50e3 * (2 * a**3 / 3 + a**2 * h) / (E * inertia)
    shear = 2 * 50e3 * a / (G * area * 5 / 6)
    stretch = 50e3 * h / (E * area)
    parts = f"bending {bending:.3f}, shear {shear:.3f}, stretch of the back {stretch:.3f}"
    assert text == f"yawn at the force's line at rated force: {bending + shear + stretch:.3f} mm ({parts})"


def test_arms_turn_against_each_other():
    """F (a^2 + a h) / EI between the tips (derived)."""
    text = next(t for t in answer(C_FRAME, JACK).outcome.answers if t.startswith("arms"))
    turn = 50e3 * (250**2 + 250 * 500) / (E * 40 * 200**3 / 12)
    assert text == f"arms out of parallel at rated force: {turn * 1e3:.2f} mm per m"


def test_two_plates_halve_the_stress():
    """The force is shared equally."""
    double = C_FRAME | {"plate": C_FRAME["plate"] | {"pieces": 2}}
    stress = [
        next(f for f in answer(data, JACK).outcome.findings if f.check == "yield at greatest force").demand.value
        for data in (C_FRAME, double)
    ]
    assert stress[1] == pytest.approx(stress[0] / 2)


def test_an_o_frame_is_a_ring_with_curved_corners():
    """Four corners judged; each is stressed more than the straight side beside it."""
    got = answer(O_FRAME, JACK)
    corners = {f.part: f.demand.value for f in got.outcome.findings if f.check == "yield at greatest force"}
    assert set(corners) == {"head/left corner", "head/right corner", "bed/left corner", "bed/right corner"}
    assert len({round(stress, 6) for stress in corners.values()}) == 1
    side = next(row for row in got.stations["left upright"] if row.case.limit == "greatest force")
    straight = side.N / 3000 + abs(side.M_y) / (30 * 100**2 / 6)
    assert min(corners.values()) > 0.9 * straight
    assert not got.ends
    assert {part.kind for part in got.members.values()} == {"beam", "upright"}


# Quadratic plane stress elements on a quarter of the frame, the force over 100 mm of the edge; the greatest
# principal stress along the fillet (derived with scikit-fem). Stubby, equal, sharp, deep beam, wide back, tall.
@pytest.mark.parametrize(
    ("back", "beam", "radius", "opening", "stress"),
    [
        (110, 170, 40, 360, 42.2),
        (110, 110, 40, 360, 71.7),
        (110, 170, 15, 360, 53.9),
        (80, 240, 40, 360, 33.0),
        (200, 100, 30, 360, 81.6),
        (60, 100, 40, 360, 74.4),
        (110, 170, 40, 700, 32.8),
    ],
)
def test_the_corner_of_an_o_frame_is_stressed_no_less_than_plane_elements_find(back, beam, radius, opening, stress):
    """A corner is a block that does not bend: it takes more than a ring along centre-lines hands it."""
    sizes = {"thickness": "50 mm", "back": back, "upper": beam, "lower": beam, "radius": radius, "window": 300}
    plate = {key: f"{size} mm" if isinstance(size, int) else size for key, size in sizes.items()} | {"steel": "S355"}
    frame = {"frame": {"shape": "O", "opening": f"{opening} mm"}, "plate": plate}
    jack = JACK | {"rating": "127486 N", "relief": "127486 N"}
    found = answer(frame, jack).outcome.findings
    assert min(f.demand.value for f in found if f.check == "yield at greatest force") >= stress
    assert max(f.demand.value for f in found if f.check == "yield at greatest force") < 1.5 * stress


def test_a_force_beside_the_plate_bends_it_across_its_corners():
    """10 mm beside a 40 mm plate adds F 10 / (200 40^2 / 6) where the back meets the corner (statics)."""
    found = answer(C_FRAME, JACK | {"offset_across": "10 mm"}).outcome.findings
    corner = next(f for f in found if (f.part, f.check) == ("upper corner", "yield at greatest force"))
    added = 50e3 * 10 / (200 * 40**2 / 6)
    assert corner.demand.value == pytest.approx(THROAT["sigma_inner"] + added, rel=THROAT["tolerance"])
    plain, beside = (
        answer(O_FRAME | {"guides": {}}, JACK | {"offset_across": text}).outcome.findings for text in ("0 mm", "10 mm")
    )
    stress = [max(f.demand.value for f in f_ if f.check == "curved bending") for f_ in (plain, beside)]
    assert stress[1] > stress[0]


def test_a_cut_edge_is_passed_for_fatigue_only_when_it_is_said_to_be_smooth():
    """How the inner corner was cut decides; until it is known fatigue is not checked."""
    found = answer(C_FRAME, JACK).outcome.findings
    assert {f.verdict for f in found if f.check == "fatigue"} == {"not checked"}
    smooth = C_FRAME | {"plate": C_FRAME["plate"] | {"edge": "smooth"}}
    finding = next(f for f in answer(smooth, JACK).outcome.findings if f.check == "fatigue")
    assert finding.demand.value == pytest.approx(THROAT["sigma_inner"], rel=THROAT["tolerance"])
    assert finding.verdict == "holds"


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"reach": None}, "plate, reach: is missing for a frame of shape C"),
        ({"radius": "200 mm"}, "plate, radius: 200 mm is more than the opening has room for"),
    ],
)
def test_a_wrong_plate_is_one_clear_message(change, message):
    """Each fault names its place."""
    plate = {key: text for key, text in (C_FRAME["plate"] | change).items() if text is not None}
    with pytest.raises(InputError) as error:
        answer(C_FRAME | {"plate": plate}, JACK)
    assert str(error.value).splitlines()[0] == message


def test_no_plate_and_no_opening_are_told():
    """What the frame is cut from and its opening are needed."""
    with pytest.raises(InputError, match="plate: is not described"):
        answer({"frame": C_FRAME["frame"]}, JACK)
    with pytest.raises(InputError, match="opening: is missing"):
        answer(C_FRAME | {"frame": {"shape": "C"}}, JACK)


def test_cuts_judged_together_are_stressed_as_each_alone():
    """The cut worked hardest is found for one newton over all of them: deep and shallow, pulled, bent and twisted."""
    plate = tables(O_FRAME).plate
    cuts = [Cut("", d, N, M, 3.0 * d, 2.0 * d) for d in (100.0, 160.0) for N, M in ((0.5, 90.0), (-0.2, -140.0))]
    assert stresses_of(plate, cuts) == pytest.approx([stress_of(plate, cut, 1.0) for cut in cuts], rel=1e-12)
    assert stress_of(plate, cuts[0], 5e4) == pytest.approx(5e4 * stress_of(plate, cuts[0], 1.0), rel=1e-12)


# Derived: M_cr = pi / S x sqrt(E I_z G I_t) of an evenly bent strip on two forks.
def test_the_plate_of_a_c_frame_may_be_thrown_sideways():
    """The strip from tip to tip is 2 x 250 + 500 mm; a plate of 10 mm is far weaker than one of 40."""
    finding = next(f for f in answer(C_FRAME, JACK).outcome.findings if f.check == "lateral torsional buckling")
    I_z, I_t = 200 * 40**3 / 12, 200 * 40**3 / 3 * (1 - 0.63 * 40 / 200)
    M_cr = math.pi / 1000 * math.sqrt(E * I_z * G * I_t)
    W, f_y = 40 * 200**2 / 6, 345.0
    slenderness = math.sqrt(W * f_y / M_cr)
    phi = 0.5 * (1 + 0.76 * (slenderness - 0.2) + slenderness**2)
    chi = 1 / (phi + math.sqrt(phi**2 - slenderness**2))
    assert finding.capacity.value == pytest.approx(chi * W * f_y, rel=0.01)
    assert finding.demand.value == pytest.approx(75e3 * 250)
    thin = C_FRAME | {"plate": C_FRAME["plate"] | {"thickness": "10 mm"}}
    other = next(f for f in answer(thin, JACK).outcome.findings if f.check == "lateral torsional buckling")
    assert other.capacity.value < finding.capacity.value / 6
