"""A cross-section as the union of upright rectangles, holes and slots taken out.

Every edge is parallel to an axis, so the section is a grid of filled cells, and all integrals are exact.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from structcheck.errors import InputError, NotCovered, Problem
from structcheck.shapes.pieces import Integrals
from structcheck.shapes.shape import Element, Fibre, Shape, check_axis

SKEW = 1e-9


@dataclass(frozen=True)
class Strip:
    """A rectangle of the section, mm, in the axes of the drawing (y to the right, z upward).

    kind  how Table 5.2 sees it: "internal", "outstand", "both sides" (an outstand each side of the middle), "solid"
    role  "web" or "flange"; by its proportions where left out
    """

    y_1: float
    y_2: float
    z_1: float
    z_2: float
    kind: str = "internal"
    role: str = ""

    @property
    def upright(self) -> bool:
        """Whether it is a web, which carries shear along z."""
        return self.role == "web" if self.role else self.z_2 - self.z_1 > self.y_2 - self.y_1

    @property
    def long(self) -> float:
        """Its longer side, mm."""
        return max(self.y_2 - self.y_1, self.z_2 - self.z_1)

    @property
    def t(self) -> float:
        """Its shorter side, mm."""
        return min(self.y_2 - self.y_1, self.z_2 - self.z_1)


@dataclass(frozen=True)
class Cell:
    """A cell closed all round by plates and seams: area inside the middle line, the integral of ds/t, least wall."""

    area: float
    ds_t: float
    t_min: float


@dataclass(frozen=True, eq=False)
class Strips(Shape):
    """Rectangles welded together.

    strips  the plates; where two overlap the material counts once
    cuts    holes and slots, taken out of all of them
    cell    the closed cell, if there is one; without it torsion is that of the separate plates
    centre  (y, z) of the shear centre in the axes of the drawing; None where only symmetry can tell
    slit    a tube with an open seam: its shear centre lies far outside
    Iw      warping constant about it, mm6
    web_and_flange  (h, b, t_w, t_f, root, webs) for forces pressed into a flange, where it has webs
    one_sided  its flanges stand out on one side of the web only
    """

    strips: tuple[Strip, ...]
    cuts: tuple[Strip, ...] = ()
    cell: Cell | None = None
    centre: tuple[float, float] | None = None
    Iw: float = 0.0
    web_and_flange: tuple[float, float, float, float, float, int] | None = None
    one_sided: bool = False
    slit: bool = False

    # ---- the grid ---------------------------------------------------------------------------

    @cached_property
    def grid(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Lines in y and z, and whether the cell between them is filled."""
        every = self.strips + self.cuts
        ys = np.unique([v for s in every for v in (s.y_1, s.y_2)])
        zs = np.unique([v for s in every for v in (s.z_1, s.z_2)])
        y, z = (ys[1:] + ys[:-1]) / 2, (zs[1:] + zs[:-1]) / 2

        def covered(strips: Sequence[Strip]) -> np.ndarray:
            found = np.zeros((len(y), len(z)), dtype=bool)
            for s in strips:
                found |= np.outer((y > s.y_1) & (y < s.y_2), (z > s.z_1) & (z < s.z_2))
            return found

        return ys, zs, covered(self.strips) & ~covered(self.cuts)

    @cached_property
    def integrals(self) -> Integrals:
        """Exact integrals in the axes of the drawing."""
        ys, zs, filled = self.grid

        def powers(v: np.ndarray) -> list[np.ndarray]:
            return [(v[1:] ** n - v[:-1] ** n) / n for n in (1, 2, 3)]

        y, z = powers(ys), powers(zs)

        def over(p: int, q: int) -> float:
            return float(y[p] @ filled @ z[q])

        return Integrals(over(0, 0), over(1, 0), over(0, 1), over(2, 0), over(0, 2), over(1, 1))

    @cached_property
    def edges(self) -> tuple[float, float, float, float]:
        """Left, right, bottom, top of the material from the centroid, mm."""
        ys, zs, filled = self.grid
        across, up = np.flatnonzero(filled.any(axis=1)), np.flatnonzero(filled.any(axis=0))
        y, z = self.centroid
        return ys[across[0]] - y, ys[across[-1] + 1] - y, zs[up[0]] - z, zs[up[-1] + 1] - z

    @cached_property
    def polygons(self) -> tuple[np.ndarray, ...]:
        """Boundary loops from the centroid: material on the left of every side, so holes run the other way round."""
        ys, zs, filled = self.grid
        loops = _loops(np.pad(filled, 1))
        y, z = self.centroid
        return tuple(np.column_stack([ys[loop[:, 0]] - y, zs[loop[:, 1]] - z]) for loop in loops)

    def _layers(self, axis: str) -> tuple[np.ndarray, np.ndarray]:
        """Levels from the centroid and the width of material between them, along z (axis "y") or y (axis "z")."""
        ys, zs, filled = self.grid
        y, z = self.centroid
        if axis == "y":
            return zs - z, np.diff(ys) @ filled
        return ys - y, filled @ np.diff(zs)

    # ---- bending ----------------------------------------------------------------------------

    @cached_property
    def skew(self) -> bool:
        """Whether it has no axis of symmetry along y or z, so that bending about one bends it about the other too."""
        return abs(self.Iyz) > SKEW * (self.Iy * self.Iz) ** 0.5

    def _straight(self) -> None:
        if self.skew:
            raise NotCovered("the section has no axis of symmetry: bent about one axis it bends about the other too")

    @property
    def Wel_y(self) -> float:
        """Least elastic modulus about y, mm3. Raises NotCovered for a skew section."""
        self._straight()
        return self.Iy / max(-self.edges[2], self.edges[3])

    @property
    def Wel_z(self) -> float:
        """Least elastic modulus about z, mm3. Raises NotCovered for a skew section."""
        self._straight()
        return self.Iz / max(-self.edges[0], self.edges[1])

    @cached_property
    def Wpl_y(self) -> float:
        """Plastic modulus about the axis that halves the area, mm3. Raises NotCovered for a skew section."""
        self._straight()
        return _plastic(*self._layers("y"))

    @cached_property
    def Wpl_z(self) -> float:
        """Plastic modulus about the axis that halves the area, mm3. Raises NotCovered for a skew section."""
        self._straight()
        return _plastic(*self._layers("z"))

    def first_moment(self, axis: str, level: float) -> float:
        """First moment about the centroid of what lies beyond a level from it, mm3."""
        levels, widths = self._layers(axis)
        low, high = np.maximum(levels[:-1], level), np.maximum(levels[1:], level)
        return float(widths @ (high**2 - low**2) / 2)

    def levels(self, axis: str) -> tuple[tuple[str, float], ...]:
        """Every step of the width, and the neutral axis."""
        levels, _ = self._layers(axis)
        steps = tuple(("step of the section", float(level)) for level in levels[1:-1][::-1])
        return tuple(sorted((*steps, ("neutral axis", 0.0)), key=lambda named: -named[1]))

    def fibres(self, axis: str) -> tuple[Fibre, ...]:
        """Where to look at the elastic stress. Raises NotCovered for a skew section."""
        self._straight()
        return super().fibres(axis)

    def _fibre(self, name: str, axis: str, level: float, second_moment: float) -> Fibre:
        levels, widths = self._layers(axis)
        beside = [w for w, low, high in zip(widths, levels[:-1], levels[1:], strict=True) if low <= level <= high and w]
        width = min(beside, default=np.inf)
        return Fibre(name, level, self.first_moment(axis, level) / (second_moment * width))

    # ---- torsion and shear ------------------------------------------------------------------

    @property
    def It(self) -> float:
        """Torsion constant, mm4: the plates by Saint-Venant's series cut short, and the closed cell by Bredt."""
        plates = sum(s.long * s.t**3 / 3 * (1 - 0.63 * s.t / s.long) for s in self.strips)
        return plates + (4 * self.cell.area**2 / self.cell.ds_t if self.cell else 0.0)

    @property
    def Wt(self) -> float:
        """Torsion modulus, mm3: all round the cell if there is one, else at the thickest plate."""
        if self.cell:
            return 2 * self.cell.area * self.cell.t_min
        return self.It / max(s.t for s in self.strips)

    @property
    def y_s(self) -> float:
        """Shear centre from the centroid along y, mm. Raises NotCovered where neither shape nor symmetry tells it."""
        return self._shear_centre(0, "z")

    @property
    def z_s(self) -> float:
        """Shear centre from the centroid along z, mm. Raises NotCovered where neither shape nor symmetry tells it."""
        return self._shear_centre(1, "y")

    def _shear_centre(self, which: int, axis: str) -> float:
        if self.centre is not None:
            return self.centre[which] - self.centroid[which]
        levels, widths = self._layers(axis)
        mirrored = np.allclose(levels, -levels[::-1], atol=1e-6) and np.allclose(widths, widths[::-1])
        if mirrored and not self.skew and not self.slit:
            return 0.0
        raise NotCovered("the shear centre of these plates is not known")

    def shear_area(self, axis: str, eta: float = 1.0) -> float:
        """EN 1993-1-1 6.2.6(3) d, e for welded sections: the webs along z, what is left of the area along y.

        Where all plates stand or all lie, they bear either way as bars do, with their whole area.
        """
        check_axis(axis)
        webs, flanges = self._plates(True), self._plates(False)
        if axis == "z":
            return eta * webs if webs else self.A
        return self.A - webs if flanges else self.A

    def _plates(self, upright: bool) -> float:
        """Least area of the upright, or of the lying, plates that a cut across them meets, cuts taken out."""
        total = 0.0
        for s in self.strips:
            if s.upright is not upright:
                continue
            total += s.long * s.t
            lost = [self._overlap(s, cut) for cut in self.cuts]
            total -= sum(lost)
        return max(total, 0.0)

    @staticmethod
    def _overlap(s: Strip, cut: Strip) -> float:
        across = min(s.y_2, cut.y_2) - max(s.y_1, cut.y_1)
        up = min(s.z_2, cut.z_2) - max(s.z_1, cut.z_1)
        return max(across, 0.0) * max(up, 0.0)

    @property
    def Asy(self) -> float:
        """5/6 of the lying plates, mm2; of the upright ones where there is nothing else."""
        return 5 / 6 * (self._plates(False) or self._plates(True))

    @property
    def Asz(self) -> float:
        """The upright plates, mm2; 5/6 of them, or of the lying ones, where there is nothing else."""
        webs, flanges = self._plates(True), self._plates(False)
        return webs if webs and flanges else 5 / 6 * (webs or flanges)

    @property
    def elements(self) -> tuple[Element, ...]:
        """The plates to classify; one with an outstand on each side is two."""
        return tuple(element for s in self.strips for element in self._elements(s))

    def _elements(self, s: Strip) -> tuple[Element, ...]:
        y, z = self.centroid
        middle_y, middle_z = (s.y_1 + s.y_2) / 2 - y, (s.z_1 + s.z_2) / 2 - z
        role = "web" if s.upright else "flange"
        if s.z_2 - s.z_1 > s.y_2 - s.y_1:
            ends = ((middle_y, s.z_2 - z), (middle_y, s.z_1 - z))
        else:
            ends = ((s.y_1 - y, middle_z), (s.y_2 - y, middle_z))
        if s.kind != "both sides":
            return (Element(role, s.kind, s.long, s.t, *ends),)
        middle = (middle_y, middle_z)
        return tuple(Element(role, "outstand", s.long / 2, s.t, middle, end) for end in ends)


def _plastic(levels: np.ndarray, widths: np.ndarray) -> float:
    areas = widths * np.diff(levels)
    below = np.concatenate([[0.0], np.cumsum(areas)])
    half = below[-1] / 2
    axis = float(np.interp(half, below, levels))
    low, high = levels[:-1] - axis, levels[1:] - axis
    return float(widths @ ((high * abs(high) - low * abs(low)) / 2))


def _loops(filled: np.ndarray) -> list[np.ndarray]:
    """Boundaries of the filled cells of a padded grid as loops of line numbers, material on the left."""
    follow: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for i, j in zip(*np.nonzero(filled), strict=True):
        # The padding shifts line numbers by one.
        a, b, c, d = (i - 1, j - 1), (i, j - 1), (i, j), (i - 1, j)
        for start, end, beyond in ((a, b, (i, j - 1)), (b, c, (i + 1, j)), (c, d, (i, j + 1)), (d, a, (i - 1, j))):
            if not filled[beyond]:
                follow.setdefault(start, []).append(end)
    loops = []
    while follow:
        start = min(follow)
        loop, here = [start], start
        while True:
            ends = follow[here]
            there = _leftmost(loop[-2] if len(loop) > 1 else None, here, ends)
            ends.remove(there)
            if not ends:
                del follow[here]
            if there == start:
                break
            loop.append(there)
            here = there
        loops.append(_corners(np.array(loop)))
    return loops


def _leftmost(before: tuple[int, int] | None, here: tuple[int, int], ends: list[tuple[int, int]]) -> tuple[int, int]:
    """Where two cells touch at a corner only, stay on the cell one came along."""
    if before is None or len(ends) == 1:
        return ends[0]
    came = (here[0] - before[0], here[1] - before[1])
    return max(ends, key=lambda end: came[0] * (end[1] - here[1]) - came[1] * (end[0] - here[0]))


def _corners(loop: np.ndarray) -> np.ndarray:
    """The loop without the points on straight sides."""
    ahead, behind = np.roll(loop, -1, axis=0) - loop, loop - np.roll(loop, 1, axis=0)
    return loop[ahead[:, 0] * behind[:, 1] != ahead[:, 1] * behind[:, 0]]


def refuse_flat(part: str, **sizes: float) -> None:
    """Raise InputError for sizes that are not positive."""
    problems = [
        Problem(key, f"{value:g} mm", "is no size of a plate", "a positive length", part=part)
        for key, value in sizes.items()
        if not value > 0
    ]
    if problems:
        raise InputError(problems)
