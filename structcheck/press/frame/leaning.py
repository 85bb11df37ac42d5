"""How a frame whose axial forces matter is taken to lean before it is loaded (EN 1993-1-1 5.3.2).

A symmetric frame under a symmetric force shows no second order at all until it buckles: the lean it was built with is
what grows. Bows of single members are in their buckling curves (5.2.2(7)).
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from structcheck.analysis.frame import Frame, NodeLoad
from structcheck.analysis.frame_model import Load, Vector
from structcheck.analysis.stability import leaning

PHI = 1 / 200
"""EN 1993-1-1:2005 (5.5): phi_0, not reduced for height or for many columns."""
SIDEWAYS = 0.01
"""Of the turns of a shape's nodes: a smaller lean is none, its members bow between nodes that stay."""
ACROSS: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def leans(frame: Frame, loads: Sequence[Load], mode: dict[str, np.ndarray]) -> dict[str, list[Load]]:
    """Name -> the loads and what stands for a lean by PHI: as the frame buckles, and to each side, both ways."""
    shapes = [({node: tuple(move[:3].tolist()) for node, move in mode.items()}, _turned(mode))] if mode else []
    shapes += [({node: tuple(z * a for a in way) for node, (_, _, z) in frame.nodes.items()}, 1.0) for way in ACROSS]
    found: dict[str, list[Load]] = {}
    for number, (shape, turned) in enumerate(shapes):
        pushes, largest = leaning(frame, loads, shape)
        if largest > SIDEWAYS * turned:
            for way, sign in (("", 1.0), (" back", -1.0)):
                found[f"lean {number}{way}"] = [*loads, *(_times(push, sign * PHI / largest) for push in pushes)]
    return found


def _turned(mode: dict[str, np.ndarray]) -> float:
    return max(float(np.abs(move[3:]).max()) for move in mode.values())


def _times(push: NodeLoad, factor: float) -> NodeLoad:
    x, y, z = push.force
    return replace(push, force=(factor * x, factor * y, factor * z))
