"""Where the members of a ring lie on the paper: mm, from the bed's left corner."""

from dataclasses import dataclass

import numpy as np

from structcheck.press.frame.understood import Ring


@dataclass(frozen=True)
class Axis:
    """A member's centre-line: where it starts, its direction, and where its local z points."""

    start: tuple[float, float]
    along: tuple[float, float]
    up: tuple[float, float]
    length: float

    def at(self, x: np.ndarray, z: np.ndarray | float = 0.0) -> tuple[np.ndarray, np.ndarray]:
        """Points of the paper at x along the member and z off it."""
        return (
            self.start[0] + self.along[0] * x + self.up[0] * z,
            self.start[1] + self.along[1] * x + self.up[1] * z,
        )


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
