"""Frames for the tests: bare rings with given stiffness, and the three invented presses by their geometry."""

import tomllib
from pathlib import Path

from structcheck.press.cases import Forces, jack_forces
from structcheck.press.frame.demands import FrameAnswer, Given, analyse
from structcheck.press.frame.off_centre import Offsets, positions
from structcheck.press.frame.solving import Ringed, solve_ring
from structcheck.press.frame.understood import Part, Ring
from structcheck.press.frame_schema import CORNERS, FrameTable, FrameTables, Guides
from structcheck.press.reading import describe
from structcheck.press.schema import BasisTable, Jack, Limits, Use

VALUES = tomllib.loads((Path(__file__).parent.parent / "reference" / "press_frames.toml").read_text(encoding="utf-8"))

ORCHARD = {
    "frame": {"shape": "closed", "span": "700 mm", "opening": "950 mm"},
    "head": {"section": "UPN 120", "steel": "S235", "pieces": 2, "apart": "20 mm"},
    "bed": {"section": "UPN 120", "steel": "S235", "pieces": 2, "apart": "20 mm"},
    "uprights": {"section": "FL 80x10", "steel": "S235", "pieces": 2},
    "guides": {"on": "rods", "length": "120 mm"},
    "retention": {
        "jack_foot": "ring welded round the base",
        "saddle": "socket 12 mm deep",
        "packers": "boards inside a rim on the platen",
    },
}
ORCHARD_JACK = {
    "rating": "8 t",
    "stroke": "150 mm",
    "base": "110 mm",
    "saddle": "38 mm",
    "offset": "15 mm",
}
BEARING = {
    "frame": {"shape": "H", "span": "760 mm", "opening": "600 mm"},
    "head": {"section": "UPN 140", "steel": "unknown", "pieces": 2},
    "bed": {"section": "UPN 140", "steel": "unknown", "pieces": 2, "level": "500 mm", "over": "60 mm"},
    "uprights": {"section": "SHS 80x80x4 cold", "steel": "unknown"},
}
BEARING_JACK = {"rating": "30 t", "drive": "air", "saddle": "60 mm", "offset": "60 mm"}
GLUING = {
    "frame": {"shape": "closed", "planes": 2, "spacing": "620 mm", "span": "780 mm", "height": "900 mm"},
    "head": {"section": "IPE 160", "steel": "S235"},
    "bed": {"section": "IPE 160", "steel": "S235", "over": "120 mm"},
    "uprights": {"section": "RHS 100x60x5", "steel": "S235"},
}
GLUING_JACK = {"rating": "10 t", "count": 2, "relief": "11 t", "saddle": "40 mm", "base": "120 mm"}


def tables(data: dict) -> FrameTables:
    """A frame's tables as a press file would give them."""
    return describe(FrameTables, data)


def jack(data: dict) -> Jack:
    """A jack's table."""
    return describe(Jack, data)


def bar(inertia: float, A: float = 1e6, As: float = float("inf")) -> Part:
    """A member of given stiffness, without a section of the library."""
    return Part("bar", None, 1, False, None, 10.0, 10.0, A, inertia, inertia, 1e6, As, As)


def bare_ring(ring: dict = VALUES["ring"], **other) -> Ring:
    """The ring of the check values."""
    given = {
        "head": bar(ring["I_beam"]),
        "bed": bar(ring["I_beam"]),
        "upright": bar(ring["I_upright"]),
        "span": ring["span"],
        "height": ring["height"],
        "opening": ring["height"] - 20,
        "corners": dict.fromkeys(CORNERS, "unknown"),
    }
    return Ring(**(given | other))


def solved_ring(
    ring: Ring, offset: float, over: tuple[float, float] = (0.0, 0.0), guides: dict | None = None
) -> Ringed:
    """A ring solved for a jack of 300 kN in all positions."""
    one = jack({"rating": "300 kN", "offset": f"{offset:g} mm", "offset_across": "0 mm"})
    frame = FrameTable.model_construct(planes=1, jacks=None, jack_on="bed", spacing=None)
    held = describe(Guides, guides) if guides is not None else None
    places = positions(one, frame, held, Offsets(offset, 0.0))
    return solve_ring(ring, places, over, held, Forces(300e3, 300e3, 450e3))


def value(
    found: Ringed, component: int, member: str, x: float, position: str, state: str, side: str = "right"
) -> float:
    """One internal force in one combination at 300 kN."""
    chosen = [c for c in found.combined if (c.position.name, c.state) == (position, state)]
    return 300e3 * float(found.base.lines.at(member, x, side)[component] @ chosen[0].factors)


def answer(data: dict, jack_data: dict, **limits: float) -> FrameAnswer:
    """The whole answer for a press file's tables; limits in mm."""
    one, table = jack(jack_data), BasisTable()
    forces = jack_forces(one, table)
    stated = Limits.model_construct(**({"opening": None, "deflection": None, "flatness": None} | limits))
    return analyse(Given(tables(data), one, forces, forces.as_basis(table, Use()), stated))
