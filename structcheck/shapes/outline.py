"""Outlines as polygons: building them, and cutting them by a line.

A polygon is an array (..., n, 2) of (y, z) in mm; the leading axes are sizes, so that a sweep is one array.
A section is a tuple of polygons, the outer one first, then the holes.
"""

from typing import NamedTuple

import numpy as np

CHORDS = 32  # per quarter circle: within 0.05 % of the thickest tube, and smooth when drawn


def points(*pairs) -> np.ndarray:
    """A polygon's points from (y, z) pairs of numbers or equal arrays."""
    flat = np.broadcast_arrays(*(np.asarray(value, float) for pair in pairs for value in pair))
    return np.stack([np.stack(flat[0::2], axis=-1), np.stack(flat[1::2], axis=-1)], axis=-1)


def arc(centre, r, start: float, end: float, chords: int = CHORDS) -> np.ndarray:
    """Points on an arc round `centre` from angle `start` to `end` (rad, from y towards z)."""
    angles = np.linspace(0.0, 1.0, chords + 1) * np.expand_dims(np.asarray(end) - start, -1) + np.expand_dims(start, -1)
    y, z, r = (np.expand_dims(np.asarray(value, float), -1) for value in (*centre, r))
    return np.stack(np.broadcast_arrays(y + r * np.cos(angles), z + r * np.sin(angles)), axis=-1)


def joined(*parts: np.ndarray) -> np.ndarray:
    """One polygon from runs of points."""
    sizes = np.broadcast_shapes(*(part.shape[:-2] for part in parts))
    return np.concatenate([np.broadcast_to(part, (*sizes, *part.shape[-2:])) for part in parts], axis=-2)


def mirrored(half: np.ndarray, axis: str) -> np.ndarray:
    """A half outline and its image in the axis, as one closed run."""
    sign = np.array([1.0, -1.0]) if axis == "y" else np.array([-1.0, 1.0])
    return joined(half, half[..., ::-1, :] * sign)


def rounded_rectangle(b, h, r) -> np.ndarray:
    """Rectangle b by h about the origin with corners of radius r, mm."""
    quarter = np.pi / 2
    corners = ((1, 1), (-1, 1), (-1, -1), (1, -1))
    return joined(
        *(
            arc((p * (b / 2 - r), q * (h / 2 - r)), r, k * quarter, (k + 1) * quarter)
            for k, (p, q) in enumerate(corners)
        )
    )


class Cut(NamedTuple):
    """What lies beyond a line across a section.

    A      area beyond, mm2
    S      its first moment about the origin's axis, mm3
    width  material cut by the line, mm
    """

    A: float
    S: float
    width: float


def beyond(polygons, axis: str, level) -> Cut:
    """The part of a section above z = level (axis "y") or right of y = level (axis "z").

    By Green's theorem with the coordinate held at the level: exact for the polygon.
    """
    level = np.expand_dims(np.asarray(level, float), -1)
    A = S = width = 0.0
    for number, polygon in enumerate(polygons):
        u, v = (polygon[..., 1], polygon[..., 0]) if axis == "y" else (polygon[..., 0], polygon[..., 1])
        u_2, v_2 = np.roll(u, -1, -1), np.roll(v, -1, -1)
        turn = np.sign(np.sum(u * v_2 - u_2 * v, axis=-1)) * (1 if number == 0 else -1)
        a, b = u - level, u_2 - level
        over, over_2 = np.maximum(a, 0.0), np.maximum(b, 0.0)
        # The share of the side that lies beyond, 1 or 0 for a side that does not cross.
        rise = np.abs(b - a)
        share = np.where(rise > 0, np.abs(over_2 - over) / np.where(rise > 0, rise, 1.0), (a > 0) * 1.0)
        step = (v_2 - v) * share
        first = step * (over + over_2) / 2
        second = step * (over * over + over * over_2 + over_2 * over_2) / 6
        A = A + turn * np.sum(first, -1)
        S = S + turn * np.sum(second + first * level, -1)
        # Where a side crosses, the strip between it and the far side; summed with sign gives the width.
        width = width + turn * np.sum(step, -1)
    return Cut(A, S, width)


def plastic_modulus(polygons, axis: str):
    """Plastic modulus about the axis that halves the area, mm3.

    The equal-area axis is found by Newton's rule inside a closing bracket.
    """
    u = polygons[0][..., 1 if axis == "y" else 0]
    low, high = u.min(axis=-1), u.max(axis=-1)
    total = beyond(polygons, axis, low)
    level = (low + high) / 2
    for _ in range(60):
        cut = beyond(polygons, axis, level)
        surplus = cut.A - total.A / 2
        if np.all(np.abs(surplus) <= 1e-12 * total.A):
            break
        low, high = np.where(surplus > 0, level, low), np.where(surplus > 0, high, level)
        step = level + surplus / np.where(cut.width > 0, cut.width, 1.0)
        level = np.where((step > low) & (step < high), step, (low + high) / 2)
    return 2 * cut.S - total.S
