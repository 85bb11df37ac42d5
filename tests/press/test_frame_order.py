"""When a ring's first-order moments are enough, and what its members and joints carry when they are not."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.analysis.frame import (
    RIGID,
    Frame,
    Member,
    NodeLoad,
    PointOnMember,
    SpreadOnMember,
    Support,
    solve,
)
from structcheck.analysis.stability import critical
from structcheck.press.frame import closed
from structcheck.press.frame.answers import readings
from structcheck.press.frame.envelope import Sampled, sample
from structcheck.press.frame.gauges import gauges
from structcheck.press.frame.moved import moved
from structcheck.press.frame.order import CASE, _axial, grown, in_state, lower_bounds, order_of, said, scaled
from structcheck.press.frame.understood import E
from structcheck.press.frame_schema import CORNERS, Guides
from structcheck.press.reading import describe
from tests.press.frames import ORCHARD, ORCHARD_JACK, answer, bar, bare_ring, solved_ring

ULTIMATE = 450e3
L, M_Y = 800.0, 4
PIECES = 8
RIGID_CORNERS = dict.fromkeys(CORNERS, "rigid")


def slender(bed: float, depth: float = 5e3):
    """A stiff head on stiff uprights, whose spreading feet press a slender bed that hangs on pins between them."""
    head, upright = bar(3e6, depth, 2e3), bar(1e7, depth, 2e3)
    return solved_ring(
        bare_ring(head=head, bed=bar(bed, depth, 2e3), upright=upright, pinned_bed=True), 100.0, guides={}
    )


def order(found, guides=None):
    """The order of a ring whose loads are not spread."""
    return order_of(found, (0.0, 0.0), describe(Guides, guides or {}), None)


# Derived: the bound against the eigenvalue of the whole ring's geometric stiffness.
@settings(max_examples=6, deadline=None)
@given(
    beam=st.floats(1e3, 1e7),
    bed=st.floats(1e3, 1e7),
    upright=st.floats(1e3, 1e7),
    height=st.floats(400, 2000),
    pinned=st.booleans(),
    rods=st.booleans(),
)
def test_the_bound_is_never_above_the_critical_factor(beam, bed, upright, height, pinned, rods):
    """In every state and position, whatever the stiffness of the members."""
    parts = (bar(inertia, 5e3, 2e3) for inertia in (beam, bed, upright))
    shape = bare_ring(**dict(zip(("head", "bed", "upright"), parts, strict=True)), height=height, pinned_bed=pinned)
    guides = {"on": "rods"} if rods else {}
    found = solved_ring(shape, 100.0, guides=guides)
    bounds = lower_bounds(shape, _axial(found, found.factors))
    states = {s.state.name: s.state for s in found.states}
    for combination, bound in zip(found.combined, bounds, strict=True):
        loads = closed.loads(shape, combination.position, (0.0, 0.0), describe(Guides, guides))
        loads = [scaled(load, ULTIMATE) for load in loads]
        exact = ULTIMATE * critical(in_state(shape, states[combination.state]), {"one": loads})["one"].factor
        # Ten thousand tonnes are no press: beyond them the eigenvalue is the noise of a frame that nothing presses.
        assert min(bound, 1e8) <= exact * 1.003


def by_iteration(frame: Frame, loads: list[NodeLoad], places: dict[str, float]) -> dict[str, np.ndarray]:
    """Second-order moments at the ends of pieces: first-order solutions with N x the lean of each piece put on it."""
    nodes, members, runs = dict(frame.nodes), [], {}
    for m in frame.members:
        ends = np.array(frame.nodes[m.start]), np.array(frame.nodes[m.end])
        names = [m.start, *(f"{m.name} {i}" for i in range(1, PIECES)), m.end]
        for i in range(1, PIECES):
            nodes[names[i]] = tuple(ends[0] + (ends[1] - ends[0]) * i / PIECES)
        for i in range(PIECES):
            joints = {"at_start": m.at_start if i == 0 else RIGID, "at_end": m.at_end if i == PIECES - 1 else RIGID}
            members.append(replace(m, name=f"{m.name}/{i}", start=names[i], end=names[i + 1], **joints))
        runs[m.name] = names
    fine = Frame(nodes, members, frame.supports)
    put = [replace(load, node=runs[load.node][round(places[load.node])]) for load in loads]
    extra: list[NodeLoad] = []
    for _ in range(14):  # each round leaves a seventh of what was missing
        result = solve(fine, {"one": [*put, *extra]})
        extra = []
        for m in members:
            a, b = (np.array(nodes[n]) for n in (m.start, m.end))
            way, length = (b - a) / np.linalg.norm(b - a), float(np.linalg.norm(b - a))
            lean = result.displacement(m.end, "one")[:3] - result.displacement(m.start, "one")[:3]
            lean -= way * (way @ lean)
            push = result.value("N", m.name, length / 2, "one") * lean / length
            extra += [NodeLoad(m.start, tuple(push)), NodeLoad(m.end, tuple(-push))]
    found = {}
    for name in runs:
        starts = [result.value("My", f"{name}/{i}", 0.0, "one", "right") for i in range(PIECES)]
        whole = float(np.linalg.norm(np.subtract(*(nodes[n] for n in (runs[name][0], runs[name][-1])))))
        found[name] = np.array([*starts, result.value("My", f"{name}/{PIECES - 1}", whole / PIECES, "one", "left")])
    return found


def chosen(found, position: str, state: str) -> int:
    """The number of a combination."""
    return next(n for n, c in enumerate(found.combined) if (c.position.name, c.state) == (position, state))


@pytest.mark.parametrize("position", ["", "off centre in line, left", "off centre in line, right"])
def test_members_and_joints_carry_second_order_moments(position):
    """Against first-order solutions of eight pieces a member with N x lean put on them until it repeats (derived)."""
    found = slender(6e4)
    of, number = order(found), chosen(found, position, "rigid")
    assert number in of.bent["ultimate"]
    combination = found.combined[number]
    frame = in_state(found.ring, next(s.state for s in found.states if s.state.name == "rigid"))
    x = combination.position.head[0].x
    loads = [NodeLoad("head", (0, 0, ULTIMATE)), NodeLoad("bed", (0, 0, -ULTIMATE))]
    moments = by_iteration(frame, loads, dict.fromkeys(("head", "bed"), (L / 2 + x) / L * PIECES))
    for name in moments:
        bent = second_order_rows(found, of, name, number)
        assert bent == pytest.approx(float(np.abs(moments[name]).max()), rel=0.003, abs=1e4)
    corner = second_order_rows(found, of, "head", number, [(L, "left")])
    assert corner == pytest.approx(float(abs(moments["head"][-1])), rel=0.003, abs=1e4)
    straight = max(abs(found.base.lines.at("bed", place)[M_Y] @ combination.factors) for place in (300, 400, 500))
    assert second_order_rows(found, of, "bed", number) > 1.1 * straight * ULTIMATE


def second_order_rows(found, of, member: str, number: int, spot=None) -> float:
    """Greatest moment in the plane of a member, or at a spot of it, in one combination at the ultimate force."""
    if spot is None:
        rows = sample(found.base.lines, member, found.combined, found.factors)
    else:
        values = (found.base.lines.at(member, *spot[0]) @ found.factors).T
        rows = Sampled(values, np.zeros(len(values)), np.arange(len(values)))
    for levels, bent in grown(found, of, rows, member, spot):
        if levels[0].limit == "ultimate":
            return float(np.abs(bent.values[bent.combination == number, M_Y]).max()) * ULTIMATE
    raise AssertionError


def test_what_is_said_and_asked_follows_the_factor():
    """First-order moments above 10, second-order ones below, no pass at and below 1."""
    texts = {}
    for inertia in (3e5, 4e4, 5e3):
        found = slender(inertia)
        texts[inertia] = said(found, order(found))
    assert "first-order moments are enough" in texts[3e5].answers[0]
    assert "second-order moments are used" in texts[4e4].answers[0]
    assert texts[5e3].findings[0].check == "elastic stability" and texts[5e3].findings[0].verdict == "fails"


def test_an_example_says_its_factor():
    """A bolted ring of channels: its beams are hardly pressed."""
    outcome = answer(ORCHARD, ORCHARD_JACK).outcome
    text = next(t for t in outcome.answers if t.startswith("elastic critical factor"))
    assert "at least" in text and text.endswith("first-order moments are enough (EN 1993-1-1 5.2.1(3) asks 10)")
    assert any("the jack stands flat" in a.text for a in outcome.assumptions)


def test_loose_corners_are_held_by_the_pulled_uprights():
    """Stops that push beside the uprights press the head; with all corners loose the ring still finds its balance."""
    data = ORCHARD | {"stops": {"height": "500 mm", "offset": "30 mm"}}
    outcome = answer(data, ORCHARD_JACK).outcome
    assert not [f for f in outcome.findings if f.check in ("elastic stability", "second order")]


def test_a_ring_without_a_second_order_answer_fails():
    """A hair above factor 1."""
    found = slender(8850.0)
    finding = said(found, order(found)).findings[0]
    assert (finding.check, finding.verdict) == ("elastic stability", "fails")


# Derived: the beam-column under a force in its middle, 3 (tan u - u) / u^3 with u = (L / 2) sqrt(N / E I).
def test_dials_and_opening_are_of_second_order_where_the_moments_are():
    """The slender bed between pins, pressed along its length by the uprights' feet; its middle against its ends."""
    head, upright, inertia = bar(3e6, 5e3, 2e3), bar(1e7, 5e3, 2e3), 4e4
    found = solved_ring(
        bare_ring(head=head, bed=bar(inertia, 5e3), upright=upright, pinned_bed=True, corners=RIGID_CORNERS), 0.0
    )
    own, R = order(found), 300e3
    number = next(k for k, c in enumerate(found.combined) if not c.position.name)
    dials = gauges(found.ring, ())
    read = readings(found.base, found.combined, found.factors, [0.0] * len(found.combined), dials, own)[number]
    pressed = -float(own.at(found.combined[number], number, R).extremes("N", "bed", CASE).least.value)
    u = L / 2 * math.sqrt(pressed / (E * inertia))
    straight = R * L**3 / (48 * E * inertia)
    name = "bed, middle against its ends"
    assert read.dials[name] * R == pytest.approx(straight, rel=1e-6)
    assert u > 0.3
    assert read.dial(name, R) == pytest.approx(straight * 3 * (math.tan(u) - u) / u**3, rel=2e-3)
    # At the load's line head and bed move apart by that much more, but for the head's and the uprights' own share.
    assert read.opened(R) - read.total * R == pytest.approx(read.dial(name, R) - straight, rel=0.05)


@pytest.mark.parametrize("load", [PointOnMember("beam", 900.0, (0, 0, -2.0)), SpreadOnMember("beam", (0, 0, -0.01))])
def test_how_far_a_load_moves_is_the_work_of_its_frame(load):
    """Twice the strain energy of a simple beam: F^2 L^3 / 48 E I, and w^2 L^5 / 120 E I."""
    inertia, length = 1e6, 1800.0
    section = {"E": E, "G": 81e3, "A": 1e3, "Iy": inertia, "Iz": inertia, "J": 1e5}
    nodes = {"a": (0.0, 0.0, 0.0), "b": (length, 0.0, 0.0)}
    frame = Frame(nodes, [Member("beam", "a", "b", **section)], [Support("a", "x y z rx"), Support("b", "y z")])
    result = solve(frame, {"one": [load]})
    point = isinstance(load, PointOnMember)
    wanted = 4 * length**3 / (48 * E * inertia) if point else 0.01**2 * length**5 / (120 * E * inertia)
    assert moved(result, [load], "one") == pytest.approx(wanted, rel=1e-9)
