"""Frames whose axial forces matter lean as built."""

import numpy as np
import pytest

from structcheck.analysis.frame import Frame, Member, NodeLoad, Support
from structcheck.analysis.stability import critical, leaning
from structcheck.press.frame.leaning import PHI, leans
from structcheck.press.reading import describe
from structcheck.press.schema import PressFile
from structcheck.sizing.rated import rated_load
from tests.press.frames import answer
from tests.press.test_frame_members import JACK, member, node

POST = {"turned": True}
PORTAL = {
    "frame": {"shape": "members"},
    "node": [
        *(node(name, 0, z) for name, z in (("A", 0), ("C", 400), ("F", 1080))),
        *(node(name, 700, z) for name, z in (("B", 0), ("E", 400), ("H", 1080))),
    ],
    "member": [
        member("bar", "C", "E", "RHS 100x50x4 cold"),
        member("head", "F", "H", "RHS 100x50x4 cold"),
        member("left post", "C", "F", "FL 60x12") | POST,
        member("right post", "E", "H", "FL 60x12") | POST,
        member("left leg", "A", "C", "FL 60x12") | POST,
        member("right leg", "B", "E", "FL 60x12") | POST,
    ],
    "support": [{"node": "A", "holds": "x y z rx"}, {"node": "B", "holds": "x y z rx"}],
    "push": [{"start": "bar", "start_at": "350 mm", "end": "head", "end_at": "350 mm"}],
}


def pressed(share: float):
    """The portal under one tonne between bar and head, and a share of it down on each corner of the head."""
    loads = [{"on": name, "load": share, "way": "-z"} for name in "FH"]
    return answer(PORTAL | {"load": loads}, JACK | {"rating": "1 t", "relief": "1.1 t"})


# Derived: beam elements with the geometric stiffness of each tenth of a member and N / 200 across both ends of every
# post and leg, axial forces iterated; written apart from the program's own analysis.
@pytest.mark.parametrize(
    ("share", "factor", "leg", "post"), [(1.0, 1.8927, 0.07588e6, 0.02232e6), (1.5, 1.2618, 0.20024e6, 0.04415e6)]
)
def test_a_symmetric_frame_near_its_critical_force_is_bent_by_its_lean(share, factor, leg, post):
    """As drawn it would show a tenth of that, and hold up to the very force at which it falls over."""
    got = pressed(share)
    stable = next(f for f in got.outcome.findings if f.check == "elastic stability")
    assert stable.utilisation == pytest.approx(1 / factor, rel=2e-3)
    for name, moment in (("leg", leg), ("post", post)):
        for side in ("left", "right"):
            rows = [abs(s.M_z) for s in got.stations[f"{side} {name}"] if s.case.limit == "ultimate"]
            assert max(rows) == pytest.approx(moment, rel=0.005)


def test_what_leans_is_said_only_where_second_order_counts():
    """An assumption that nobody needs is none."""
    said = [any("lean by 1 in 200" in a.text for a in pressed(share).outcome.assumptions) for share in (1.0, 0.05)]
    assert said == [True, False]


def column(*supports: Support) -> Frame:
    """One bar, 1 m up from `a` to `b`."""
    bar = Member("bar", "a", "b", 210e3, 81e3, 1e3, 1e5, 2e5, 1e5)
    return Frame({"a": (0.0, 0.0, 0.0), "b": (0.0, 0.0, 1000.0)}, [bar], supports)


def test_a_leaning_column_pushes_its_head_sideways_by_its_share_of_the_force():
    """P psi at head and foot (EN 1993-1-1 5.3.2(7), memory); pulled, it rights itself and counts as no lean."""
    frame, shape = column(Support("a", "x y z rx ry rz")), {"a": (0.0, 0.0, 0.0), "b": (5.0, 0.0, 0.0)}
    pushes, largest = leaning(frame, [NodeLoad("b", (0.0, 0.0, -80e3))], shape)
    assert largest == pytest.approx(0.005)
    assert {p.node: p.force[0] for p in pushes} == {"b": pytest.approx(400.0), "a": pytest.approx(-400.0)}
    pushes, largest = leaning(frame, [NodeLoad("b", (0.0, 0.0, 80e3))], shape)
    assert largest == 0 and max(p.force[0] for p in pushes) == pytest.approx(400.0)


def test_every_lean_is_one_in_two_hundred_both_ways():
    """A cantilever leans as it buckles, about its weak axis, and to both sides of either axis."""
    frame, loads = column(Support("a", "x y z rx ry rz")), [NodeLoad("b", (0.0, 0.0, -10e3))]
    found = leans(frame, loads, critical(frame, {"": loads})[""].mode)
    heads = [sum(np.array(p.force) for p in own if p.node == "b") for own in found.values()]
    assert sorted(round(abs(float(h[0])) + abs(float(h[1])), 6) for h in heads) == [10e3 * PHI] * 6
    assert np.abs(sum(h[:2] for h in heads)).max() < 1e-9


def test_a_bar_between_held_ends_leans_only_as_a_whole():
    """It buckles between ends that stay: no lean of its mode is made up, the bow is in its buckling curve."""
    frame, loads = column(Support("a", "x y z rz"), Support("b", "x y")), [NodeLoad("b", (0.0, 0.0, -10e3))]
    assert len(leans(frame, loads, critical(frame, {"": loads})[""].mode)) == 4


def test_a_press_is_not_rated_by_the_force_at_which_it_falls_over():
    """Beyond it its members look eased, as nothing is bent any more: the legs are used up well before (derived)."""
    loads = [{"on": name, "load": 1.5, "way": "-z"} for name in "FH"]
    data = PORTAL | {"schema": 1, "title": "portal", "jack": {"rating": "1 t", "relief": "1.1 t"}, "load": loads}
    rated = rated_load(describe(PressFile, data))
    assert rated.strength.rating < 1.1 * 9806.65
    assert rated.strength.governing[0].check == "buckling with bending"
