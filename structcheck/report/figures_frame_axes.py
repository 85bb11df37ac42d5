"""Where the members of a ring lie on the paper: mm, from the bed's left corner."""

from structcheck.press.frame.solving import Ringed
from structcheck.press.frame.understood import Ring
from structcheck.report.figures_skeleton import Axis, JointState, Skeleton


def axes_of(ring: Ring) -> dict[str, Axis]:
    """Every member of the ring, z of a beam upwards and of an upright towards the middle of the frame."""
    span, height, legs = ring.span, ring.height, ring.legs
    axes = {
        "head": Axis((0.0, height), (1.0, 0.0), (0.0, 1.0), span),
        "bed": Axis((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), span),
        "left upright": Axis((0.0, 0.0), (0.0, 1.0), (1.0, 0.0), height),
        "right upright": Axis((span, 0.0), (0.0, 1.0), (-1.0, 0.0), height),
    }
    if legs:
        axes["left leg"] = Axis((0.0, -legs), (0.0, 1.0), (1.0, 0.0), legs)
        axes["right leg"] = Axis((span, -legs), (0.0, 1.0), (-1.0, 0.0), legs)
    return axes


def corners_of(ring: Ring) -> dict[str, tuple[float, float]]:
    """Where beams and uprights are joined."""
    pin = ring.pin_offset
    return {
        "head/left": (0.0, ring.height),
        "head/right": (ring.span, ring.height),
        "bed/left": (pin, 0.0),
        "bed/right": (ring.span - pin, 0.0),
    }


def skeleton_of(found: Ringed) -> Skeleton:
    """A solved ring as lines, in every state of its corners that can carry the central force."""
    corners = corners_of(found.ring)
    states = tuple(
        JointState(
            solved.state.name,
            found.base.result,
            solved.factors[:, 0],
            tuple(spot for place, spot in corners.items() if place not in solved.state.holds),
        )
        for solved in found.states
        if solved.carried[0]
    )
    return Skeleton(axes_of(found.ring), states, frozenset({"right upright", "right leg"}))
