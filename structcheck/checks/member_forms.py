"""What the clauses of EN 1993-1-1 6.2 ask of a shape: its form, the strength that governs it, its shares."""

from functools import cache
from typing import Any, Literal

import numpy as np

from structcheck.errors import NotCovered
from structcheck.formula import remembered
from structcheck.materials.steels import Steel
from structcheck.maths import minimum, where
from structcheck.shapes.angles import Angle
from structcheck.shapes.bars import Rectangle, Round
from structcheck.shapes.channels import Channel
from structcheck.shapes.hollow import Hollow, Tube
from structcheck.shapes.pair import Pair
from structcheck.shapes.rolled import RolledI
from structcheck.shapes.strips import Strips

Form = Literal["i", "channel", "hollow", "tube", "box", "rectangle", "round", "angle", "other"]

E = 210_000.0
G = E / 2.6
"""Moduli of EN 1993-1-1 3.2.6, MPa; G from E and nu 0.3, a little under the rounded 81 000."""

THINNEST = 3.0
"""EN 1993-1-1 1.1.2(1): its rules are for material of 3 mm and more."""

_FORMS: dict[type, Form] = {
    RolledI: "i",
    Channel: "channel",
    Hollow: "hollow",
    Tube: "tube",
    Rectangle: "rectangle",
    Round: "round",
    Angle: "angle",
}


def form(section: Any) -> Form:
    """The form of a section as the clauses know it; "other" takes their general, safe rules.

    A "box" is plates or channels closed by seams all along.
    """
    shape = getattr(section, "shape", section)
    found = _form_of(type(shape))
    return "box" if found == "other" and isinstance(shape, Strips | Pair) and shape.cell is not None else found


@cache
def _form_of(kind: type) -> Form:
    return next((_FORMS[base] for base in kind.__mro__ if base in _FORMS), "other")


def closed(section: Any) -> bool:
    """Whether torsion goes round a closed wall or a solid bar, so that warping is not worth counting."""
    return form(section) in ("hollow", "tube", "box", "rectangle", "round")


@remembered
def thickness(section: Any) -> Any:
    """Thickness by which the yield strength is taken: the thickest part."""
    thicknesses = [element.t for element in section.elements]
    return np.max(thicknesses, axis=0) if np.ndim(thicknesses[0]) else float(max(thicknesses))


def yield_strength(section: Any, steel: Steel) -> float:
    """f_y at the governing thickness, MPa. Raises NotCovered beyond the thickness the steel's standard lists."""
    return steel.f_y(thickness(section))


def require_en1993(section: Any, steel: Steel) -> None:
    """Raise NotCovered where the strength rules of EN 1993-1-1 do not reach the steel or the wall."""
    if not steel.in_en1993:
        raise NotCovered(f"{steel.name} is no steel of EN 1993-1-1 (section 3)")
    thinnest = min(element.t for element in section.elements)
    if thinnest < THINNEST:
        raise NotCovered(f"{thinnest:g} mm is thinner than the 3 mm from which EN 1993-1-1 holds (1.1.2(1))")


def clear_web(section: Any, axis: str) -> tuple[Any, Any] | None:
    """(h_w, t_w) of the most slender web for a force along `axis`; None where there is none that could buckle."""
    shape, kind = getattr(section, "shape", section), form(section)
    if kind in ("i", "channel"):
        return (shape.hw, shape.tw) if axis == "z" else None
    if kind == "hollow":
        return (shape.h if axis == "z" else shape.b) - 2 * shape.t, shape.t
    if kind == "rectangle":
        return (shape.h, shape.b) if axis == "z" else None
    if kind == "angle":
        return (shape.h if axis == "z" else shape.b) - shape.t, shape.t
    if isinstance(shape, Pair):
        return clear_web(shape.piece, axis)
    if kind in ("box", "other"):
        # Every plate that runs along the force; its flat width is its clear depth where nothing is rounded.
        along = [e for e in section.elements if abs(e.end[axis == "z"] - e.start[axis == "z"]) > e.c / 2]
        return max(((e.c, e.t) for e in along if e.kind != "solid"), key=lambda web: web[0] / web[1], default=None)
    return None


def shear_modulus_share(section: Any, axis: str, number: Any) -> Any:
    """Share of the bending resistance about `axis` that high shear takes away as it nears its resistance.

    The plastic modulus of the webs over that of the section (6.30 for the I); 1 where nothing finer is written.
    """
    shape, kind = getattr(section, "shape", section), form(section)
    if kind in ("i", "channel") and axis == "y":
        web = (shape.hw * shape.tw) ** 2 / (4 * shape.tw) if kind == "i" else shape.h**2 * shape.tw / 4
        share = web / shape.Wpl_y
    elif kind == "hollow":
        depth, modulus = (shape.h, shape.Wpl_y) if axis == "y" else (shape.b, shape.Wpl_z)
        share = depth**2 * shape.t / 2 / modulus
    else:
        return 1.0
    return where(number <= 2, minimum(share, 1.0), 1.0)
