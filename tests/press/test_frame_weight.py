"""What a press weighs: on its members and joints, and over the edges of its feet."""

import math

import pytest

from structcheck.analysis.frame import PointOnMember, SelfWeight, solve
from structcheck.errors import InputError
from structcheck.press.cases import jack_forces
from structcheck.press.frame import closed
from structcheck.press.frame.given import Given
from structcheck.press.frame.order import in_state, scaled
from structcheck.press.frame.ringed import solved_ring
from structcheck.press.schema import BasisTable, Use
from structcheck.quantities import G_N
from tests.press.frames import ORCHARD, ORCHARD_JACK, answer, jack, tables
from tests.press.test_frame_members import JACK, RING
from tests.press.test_frame_plates import C_FRAME

LIGHT_JACK = ORCHARD_JACK | {"rating": "1 t"}
HOOD = {"name": "hood", "mass": "60 kg", "height": "1400 mm"}
FEET = {"width": "800 mm", "depth": "600 mm", "below": "350 mm"}


def said(got) -> str:
    """What was done with the weight."""
    return next(a.text for a in got.outcome.assumptions if a.text.startswith("own weight"))


def tipping(got):
    """The finding, or None."""
    return next((f for f in got.outcome.findings if f.check == "tipping"), None)


# ---- on members and joints -------------------------------------------------------------------


# Derived: one solution with the jack's force and 1.35 times the weight together.
def test_weight_that_counts_is_on_every_member_and_joint():
    """In every state and position no less than with the weight on the frame, and not much more."""
    data = ORCHARD | {"mass": [HOOD], "feet": FEET}
    one, basis = jack(LIGHT_JACK), BasisTable()
    forces = jack_forces(one, basis)
    got, found = solved_ring(Given(tables(data), one, forces, forces.as_basis(basis, Use())))
    assert "put on every demand" in said(got)
    states = {s.state.name: s.state for s in found.states}
    hood = PointOnMember("head", 350.0, (0.0, 0.0, -1.35 * 60 * G_N))
    weight = [SelfWeight(density=1.35 * 7.85e-6), hood]
    for c in found.combined:
        if c.state == "all corners loose":
            continue
        loads = closed.loads(found.ring, c.position, (0.0, 0.0), tables(data).guides)
        result = solve(
            in_state(found.ring, states[c.state]), {"one": [*(scaled(p, forces.ultimate) for p in loads), *weight]}
        )
        for name in ("head", "bed", "left upright", "right upright"):
            rows = [s for s in got.stations[name] if s.case.limit == "ultimate"]
            turned = getattr(found.ring, name if name in ("head", "bed") else "upright").turned
            most = result.extremes("My", name, "one")
            exact = max(abs(most.least.value), abs(most.most.value))
            assert max(abs(s.M_z if turned else s.M_y) for s in rows) >= exact * (1 - 1e-6)
        corner = abs(result.value("My", "head", 0.0, "one", "right"))
        ends = [e for e in got.ends["head/left"] if e.case.limit == "ultimate"]
        assert max(abs(e.M_y) for e in ends) >= corner * (1 - 1e-6)
    bare = answer(data | {"mass": []}, LIGHT_JACK | {"rating": "100 t"})
    assert "counts as nothing" in said(bare)


def test_legs_are_pressed_by_what_stands_on_them():
    """Half of the weight each, on the legs of an H-frame, which the jack leaves alone."""
    data = {
        "frame": {"shape": "H", "span": "760 mm", "opening": "600 mm"},
        "head": {"section": "UPN 140", "steel": "S235", "pieces": 2},
        "bed": {"section": "UPN 140", "steel": "S235", "pieces": 2, "level": "500 mm"},
        "uprights": {"section": "SHS 80x80x4 cold", "steel": "S235"},
        "mass": [HOOD],
    }
    got = answer(data, LIGHT_JACK)
    mass = float(next(a for a in got.outcome.answers if a.startswith("mass of")).split(": ")[1].split(" kg")[0])
    pressed = max(-s.N for s in got.stations["left leg"] if s.case.limit == "ultimate")
    # One share for all levels: at rated force, whole; at ultimate so 1.5 for the 1.35 asked for.
    assert 1.35 * mass * G_N / 2 < pressed < 1.52 * mass * G_N / 2


def test_the_weight_of_free_members_counts_too():
    """A mass on a node of the head, as heavy as a tenth of the jack's force."""
    light = answer(RING, JACK | {"rating": "5 kN", "relief": "5 kN"})
    hung = RING | {"mass": [{"name": "hood", "mass": "50 kg", "node": "E"}]}
    heavy = answer(hung, JACK | {"rating": "5 kN", "relief": "5 kN"})
    most = [max(abs(s.M_y) for s in a.stations["head left"] if s.case.limit == "ultimate") for a in (light, heavy)]
    # Its head bends as under the jack: 50 kg in the middle between rigid corners.
    assert most[1] - most[0] == pytest.approx(most[0] * 1.35 * 50 * G_N / 7500, rel=0.1)


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (ORCHARD | {"mass": [{"name": "hood", "mass": "50 kg"}]}, 'mass "hood", height: is missing'),
        (C_FRAME | {"mass": [HOOD]}, 'mass "hood", out: is missing'),
        (RING | {"mass": [{"name": "hood", "mass": "50 kg", "node": "Z"}]}, '"Z" is no node'),
        (RING | {"mass": [HOOD]}, "height: has no meaning"),
        (ORCHARD | {"feet": FEET | {"behind": "10 mm"}}, "behind: has no meaning"),
    ],
)
def test_where_a_mass_sits_is_asked_in_the_words_of_the_shape(data, message):
    """Height for a ring, height and way out for a C-frame, a node for free members."""
    with pytest.raises(InputError, match=message):
        answer(data, JACK)


# ---- over the edges of the feet --------------------------------------------------------------


# Derived by hand.
def test_a_c_frame_tips_over_the_edge_nearest_its_middle_of_mass():
    """Back 700 x 200 and two arms 150 x 200, 40 mm thick, feet from 50 mm behind to 300 mm before the outer edge."""
    feet = {"width": "350 mm", "depth": "300 mm", "behind": "50 mm", "handle": "900 mm"}
    got = answer(C_FRAME | {"feet": feet}, JACK)
    back, arm = 700 * 200 * 40 * 7.85e-6, 150 * 200 * 40 * 7.85e-6
    middle = (back * 100 + 2 * arm * 275) / (back + 2 * arm)
    finding = tipping(got)
    assert finding.demand.value == pytest.approx(1.5 * 450 * 900)
    nearest = min(middle + 50, 300 - middle, 150)
    assert finding.capacity.value == pytest.approx(0.9 * (back + 2 * arm) * G_N * nearest, rel=1e-6)
    forward = answer(C_FRAME | {"feet": feet | {"width": "250 mm", "depth": "600 mm"}}, JACK)
    ahead = 200 - middle
    assert tipping(forward).capacity.value == pytest.approx(0.9 * (back + 2 * arm) * G_N * ahead, rel=1e-6)
    lean = math.degrees(math.atan2(ahead, 350.0))
    assert any(f"to the right when it leans more than {lean:.0f} degrees" in a for a in forward.outcome.answers)


def test_a_frame_whose_mass_is_beyond_its_feet_falls():
    """A heavy thing at the tip, feet under the back only."""
    thing = {"name": "die", "mass": "300 kg", "height": "400 mm", "out": "350 mm"}
    feet = {"width": "220 mm", "depth": "600 mm", "behind": "0 mm"}
    finding = tipping(answer(C_FRAME | {"mass": [thing], "feet": feet}, JACK))
    assert finding.verdict == "fails" and "tips of itself" in finding.reason


# Derived by hand.
def test_a_free_frame_tips_about_the_feet_under_its_supports():
    """The ring on feet 900 x 500 mm about its two supports: half of 500 mm of depth is the nearest edge."""
    feet = {"width": "900 mm", "depth": "500 mm", "below": "100 mm"}
    got = answer(RING | {"feet": feet}, JACK)
    mass = float(next(a for a in got.outcome.answers if a.startswith("mass of")).split(": ")[1].split(" kg")[0])
    finding = tipping(got)
    assert finding.demand.value == pytest.approx(1.5 * 450 * 1300)
    assert finding.capacity.value == pytest.approx(0.9 * mass * G_N * 250, rel=0.01)


@pytest.mark.parametrize(
    ("data", "wanted"), [(C_FRAME, "behind"), (RING, "width and depth"), (ORCHARD, "width and depth")]
)
def test_feet_that_nobody_described_are_not_checked(data, wanted):
    """And it says what to write; bolted to the floor it is not needed."""
    finding = tipping(answer(data, JACK))
    assert finding.verdict == "not checked" and wanted in finding.reason and "bolted = true" in finding.reason
    assert tipping(answer(data | {"feet": {"bolted": True}}, JACK)) is None
