"""Integrals over polygons and half-plane clipping, written apart from the package."""

import numpy as np


def integrals(polygon) -> np.ndarray:
    """A, Qy, Qz, Jyy, Jzz, Jyz of one polygon, positive whichever way round."""
    y, z = polygon.T
    p, q = np.roll(polygon, -1, axis=0).T
    cross = y * q - p * z
    total = np.array(
        [
            cross.sum() / 2,
            ((y + p) * cross).sum() / 6,
            ((z + q) * cross).sum() / 6,
            ((y * y + y * p + p * p) * cross).sum() / 12,
            ((z * z + z * q + q * q) * cross).sum() / 12,
            ((y * q + 2 * y * z + 2 * p * q + p * z) * cross).sum() / 24,
        ]
    )
    return total * np.sign(total[0])


def section_integrals(polygons) -> np.ndarray:
    """The outer polygon less its holes."""
    outer, *holes = (integrals(polygon) for polygon in polygons)
    return outer - sum(holes, np.zeros(6))


def above(polygon, level: float) -> np.ndarray:
    """The part of a polygon with z above the level (Sutherland and Hodgman)."""
    kept = []
    for start, end in zip(polygon, np.roll(polygon, -1, axis=0), strict=True):
        if start[1] >= level:
            kept.append(start)
        if (start[1] >= level) != (end[1] >= level):
            kept.append(start + (end - start) * (level - start[1]) / (end[1] - start[1]))
    return np.array(kept) if kept else np.zeros((3, 2))


def plastic_modulus(polygons) -> float:
    """About the horizontal axis that halves the area, by bisection on clipped polygons."""
    whole = section_integrals(polygons)
    low, high = polygons[0][:, 1].min(), polygons[0][:, 1].max()
    for _ in range(50):
        level = (low + high) / 2
        part = section_integrals([above(polygon, level) for polygon in polygons])
        low, high = (level, high) if part[0] > whole[0] / 2 else (low, level)
    return 2 * part[2] - whole[2]
