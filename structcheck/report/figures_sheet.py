"""A sheet on which lengths are drawn to scale. It takes the calls of matplotlib's axes that a drawing needs.

Axes of matplotlib carry ticks, limits and scales that a drawing has no use for, at a third of its time.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon
from matplotlib.text import Annotation
from matplotlib.transforms import Affine2D

Point = tuple[float, float]
Box = tuple[float, float, float, float]


class Sheet:
    """A part of a canvas that shows a box of the drawing, as large as it fits and in its middle.

    box    left, right, low and high edge of what is shown, in the drawing's own measure
    place  where on the canvas: left, low, width and height, as shares of it
    """

    def __init__(self, canvas: Any, box: Box, place: Box = (0.0, 0.0, 1.0, 1.0)) -> None:
        left, right, low, high = box
        wide, tall = canvas.get_size_inches()
        x, y, width, height = place[0] * wide, place[1] * tall, place[2] * wide, place[3] * tall
        self.canvas = canvas
        self.scale = float(min(width / (right - left), height / (high - low)))
        """Inches for one of the drawing's measure."""
        middle = (-(left + right) / 2, -(low + high) / 2)
        to_inches = Affine2D().translate(*middle).scale(self.scale).translate(x + width / 2, y + height / 2)
        self._to_paper = to_inches + canvas.dpi_scale_trans

    def add_patch(self, patch: Any) -> Any:
        """A shape in the drawing's measure."""
        patch.set_transform(self._to_paper)
        return self.canvas.add_artist(patch)

    def plot(self, x: Sequence[float] | np.ndarray, y: Sequence[float] | np.ndarray, **look: Any) -> Any:
        """A line."""
        line = Line2D(x, y, **look)
        line.set_transform(self._to_paper)
        return self.canvas.add_artist(line)

    def fill(self, x: np.ndarray, y: np.ndarray, **look: Any) -> Any:
        """The area inside a closed line."""
        return self.add_patch(Polygon(np.column_stack([x, y]), closed=True, **look))

    def text(self, x: float, y: float, text: str, **look: Any) -> Any:
        """A text at a place."""
        return self.canvas.text(x, y, text, transform=self._to_paper, **look)

    def annotate(
        self, text: str, at: tuple[float, float], beside: tuple[float, float] = (0.0, 0.0), **look: Any
    ) -> Any:
        """A text so many points beside a place."""
        known = {"textcoords": "offset points"} | look
        return self.canvas.add_artist(Annotation(text, at, beside, xycoords=self._to_paper, **known))
