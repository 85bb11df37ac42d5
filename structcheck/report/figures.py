"""Figures for the page: drawn by matplotlib as SVG whose text stays text and whose colours follow the page.

A figure is drawn in colours that stand for the page's own (ink, faint, paper, six steps of one hue); they are turned
into the page's variables, so that light, dark and print each show it their way.
"""

import html
import io
import logging
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

import matplotlib
from matplotlib.backends.backend_svg import RendererSVG
from matplotlib.text import Text
from matplotlib.transforms import Affine2D

from structcheck.record import record

logging.getLogger("matplotlib").setLevel(logging.ERROR)

INK, FAINT, PAPER, WASH = "#010203", "#040506", "#070809", "#0b0c0d"
HUES = ("#100000", "#100001", "#100002", "#100003", "#100004", "#100005")
_VARIABLES: Mapping[str, str] = {
    INK: "--ink",
    FAINT: "--faint",
    PAPER: "--paper",
    WASH: "--wash",
    **{colour: f"--u{number}" for number, colour in enumerate(HUES)},
}

_STYLE: Mapping[str, Any] = {
    "svg.fonttype": "none",
    "svg.hashsalt": "structcheck",
    "text.color": INK,
    "axes.edgecolor": FAINT,
    "axes.labelcolor": INK,
    "xtick.color": FAINT,
    "ytick.color": FAINT,
    "axes.facecolor": "none",
    "figure.facecolor": "none",
    "axes.spines.top": False,
    "axes.spines.right": False,
    "lines.color": INK,
    "lines.linewidth": 1.6,
    "patch.edgecolor": INK,
    "hatch.color": PAPER,
    "hatch.linewidth": 1.6,
    "axes.unicode_minus": True,
    "path.simplify": True,
}


PER_INCH = 5.4
"""rem for an inch of canvas: letters of 11 points are about 13 pixels. A phone shows 4.5 inches with 11 pixels left."""


@record
class Figure:
    """A finished figure.

    name     unique on the page, for the ids inside it
    svg      the drawing
    words    what it shows, for those who do not see it
    caption  the line below it
    """

    name: str
    svg: str
    words: str
    caption: str = ""
    wide: float = 46.0


@record
class Panel:
    """Several small figures side by side, below each other on a phone, under one caption.

    least  width below which one does not shrink, rem
    """

    figures: tuple[Figure, ...]
    caption: str
    least: float = 9.5


def level(use: float | None) -> int:
    """The step of the hue for a utilisation: 0 to 5; 6 where it is over 1 and hatched."""
    if use is None or use > 1:
        return 6
    return min(5, int(use * 6))


def fill(use: float | None) -> dict[str, Any]:
    """How a shape of this utilisation is filled."""
    step = level(use)
    return {"facecolor": HUES[min(step, 5)], "hatch": "///" if step == 6 else None, "edgecolor": INK}


class Canvas:
    """What artists need of a figure; that of matplotlib brings axes, projections and a screen, which nothing uses."""

    dpi = 72.0

    def __init__(self, width: float, height: float) -> None:
        self.size = (width, height)
        self.dpi_scale_trans = Affine2D().scale(self.dpi)
        self.artists: list[Any] = []

    def get_size_inches(self) -> tuple[float, float]:
        """Width and height."""
        return self.size

    def get_figure(self, root: bool = False) -> "Canvas":
        """Itself: artists ask for the figure at the root of theirs."""
        return self

    def add_artist(self, artist: Any) -> Any:
        """Something to draw, in its own transform."""
        artist.set_figure(self)
        self.artists.append(artist)
        return artist

    def text(self, x: float, y: float, text: str, **look: Any) -> Any:
        """A text at a place, in shares of the canvas where no transform is given."""
        look.setdefault("transform", Affine2D().scale(*self.size) + self.dpi_scale_trans)
        return self.add_artist(Text(x, y, text, **look))

    def svg(self) -> str:
        """All of it drawn."""
        buffer = io.StringIO()
        width, height = (self.dpi * inches for inches in self.size)
        empty = {"Date": None, "Creator": None, "Format": None, "Type": None}
        renderer = RendererSVG(width, height, buffer, image_dpi=self.dpi, metadata=empty)
        for artist in sorted(self.artists, key=lambda one: one.get_zorder()):
            artist.draw(renderer)
        renderer.finalize()
        return buffer.getvalue()


@contextmanager
def drawing(width: float, height: float, *, font: float = 10.0) -> Iterator[Canvas]:
    """An empty canvas in inches, letters in points, to be passed to `finished`."""
    with matplotlib.rc_context({**_STYLE, "font.size": font}):
        yield Canvas(width, height)


def finished(canvas: Canvas, name: str, words: str, caption: str = "") -> Figure:
    """The canvas as a figure; to be called inside `drawing`."""
    wide = round(PER_INCH * canvas.size[0], 2)
    return Figure(name, _for_page(canvas.svg(), name, words), words, caption, wide)


def _for_page(svg: str, name: str, words: str) -> str:
    """Only the drawing, its ids made unique, its colours the page's, with a title for screen readers."""
    svg = svg[svg.index("<svg") :]
    svg = re.sub(r"<metadata>.*?</metadata>", "", svg, flags=re.DOTALL)
    svg = re.sub(r"<!--.*?-->", "", svg, flags=re.DOTALL)
    # A style inside a drawing would reach the whole page; the page has it for its drawings only.
    svg = re.sub(r"<style.*?</style>", "", svg, flags=re.DOTALL)
    svg = re.sub(r'\b(id=")', rf"\1{name}-", svg)
    svg = re.sub(r'(xlink:href="#|url\(#)', rf"\1{name}-", svg)
    svg = svg.replace("xlink:href", "href")
    for colour, variable in _VARIABLES.items():
        svg = svg.replace(colour, f"var({variable})")
    svg = re.sub(r"font: (?:[\w ]*?)([\d.]+px)[^;\"]*", r"font-size: \1", svg)
    svg = re.sub(r"font-family: [^;\"]*;? ?", "", svg)
    head = re.match(r"<svg[^>]*>", svg)
    assert head is not None
    box = re.search(r'viewBox="[^"]*"', head[0])
    assert box is not None
    opening = (
        f'<svg xmlns="http://www.w3.org/2000/svg" {box[0]} role="img" aria-labelledby="{name}-title">'
        f'<title id="{name}-title">{html.escape(words)}</title>'
    )
    text = opening + svg[head.end() :]
    return "\n".join(line for line in (line.strip() for line in text.splitlines()) if line)
