"""One cross-section with a name: what it is called, how it is made, and what it can do."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from structcheck.shapes.families import FAMILIES
from structcheck.shapes.shape import Element, Fibre, Shape, check_axis

QUANTITIES: dict[str, str] = {
    "A": "mm2",
    "Avy": "mm2",
    "Avz": "mm2",
    "Asy": "mm2",
    "Asz": "mm2",
    "Iy": "mm4",
    "Iz": "mm4",
    "Wel_y": "mm3",
    "Wel_z": "mm3",
    "Wpl_y": "mm3",
    "Wpl_z": "mm3",
    "i_y": "mm",
    "i_z": "mm",
    "It": "mm4",
    "Wt": "mm3",
    "Iw": "mm6",
    "mass": "kg/m",
}


@dataclass(frozen=True)
class Section:
    """A section of the library or one the user described, in N and mm; y the strong axis, z along the depth.

    designation  "SHS 100x100x5"
    family       "SHS", "IPE", ... ; "" for a section of its own
    standard     dimensions to, "EN 10219-2"
    route        "cold formed", "hot finished", "rolled", "bar", "plate" or "welded"
    dimensions   name -> mm (`slope` in percent); t is the wall to calculate with
    provenance   "read", "memory", "derived" or "own"
    geometry     the shape; made from family and dimensions where left out
    note         a remark of the row

    A property is computed when it is first asked for.
    """

    designation: str
    family: str
    standard: str
    route: str
    dimensions: Mapping[str, float] = field(hash=False)
    provenance: str = "own"
    geometry: Shape | None = field(default=None, repr=False)
    note: str = field(default="", compare=False)

    @cached_property
    def shape(self) -> Shape:
        """The geometry everything below is computed from."""
        return self.geometry or FAMILIES[self.family].shape(self.dimensions)

    def __getattr__(self, name: str) -> float:
        # Only the numbers of a shape; a cached property that failed must not look like a missing name.
        if name not in _NUMBERS:
            raise AttributeError(f"a section has no {name!r}")
        value = float(getattr(self.shape, name))
        self.__dict__[name] = value
        return value

    @cached_property
    def Avy(self) -> float:
        """Shear area of EN 1993-1-1 6.2.6(3) for a force along y, mm2."""
        return self.shear_area("y")

    @cached_property
    def Avz(self) -> float:
        """Shear area of EN 1993-1-1 6.2.6(3) for a force along z, mm2, with eta = 1.0."""
        return self.shear_area("z")

    def shear_area(self, axis: str, eta: float = 1.0) -> float:
        """Shear area A_v of EN 1993-1-1 6.2.6(3) for a force along `axis`, mm2."""
        return float(self.shape.shear_area(axis, eta))

    @cached_property
    def centroid(self) -> tuple[float, float]:
        """(y, z) of the centroid, mm: from the web's back for a channel, the heel for an angle, else 0, 0."""
        y, z = self.shape.centroid
        return float(y), float(z)

    @cached_property
    def edges(self) -> tuple[float, float, float, float]:
        """Left, right, bottom and top of the section from the centroid, mm."""
        left, right, bottom, top = self.shape.edges
        return float(left), float(right), float(bottom), float(top)

    @cached_property
    def elements(self) -> tuple[Element, ...]:
        """The plates to classify by EN 1993-1-1 Table 5.2."""
        return tuple(
            Element(e.role, e.kind, float(e.c), float(e.t), _pair(e.start), _pair(e.end)) for e in self.shape.elements
        )

    def fibres(self, axis: str) -> tuple[Fibre, ...]:
        """Where to look at the elastic stress in bending about `axis` ("y", "z"; for an angle "u", "v" too)."""
        check_axis(axis, ("y", "z", "u", "v"))
        if axis not in self._fibres:
            self._fibres[axis] = tuple(Fibre(f.name, float(f.lever), float(f.tau)) for f in self.shape.fibres(axis))
        return self._fibres[axis]

    @cached_property
    def _fibres(self) -> dict[str, tuple[Fibre, ...]]:
        """Those already asked for, by axis."""
        return {}

    def outline(self) -> tuple[np.ndarray, ...]:
        """Closed polygons (n, 2) of (y, z) from the centroid, mm: the outer one first, then the holes."""
        return self.shape.outline()

    def properties(self) -> dict[str, float]:
        """Every quantity of `QUANTITIES` by name."""
        return {name: getattr(self, name) for name in QUANTITIES}


_NUMBERS = frozenset(QUANTITIES) - {"Avy", "Avz"} | {"Iyz", "Iu", "Iv", "i_v", "alpha", "y_s", "z_s"}


def _pair(point) -> tuple[float, float]:
    return float(point[0]), float(point[1])
