"""Half-lap slots in crossing ribs: what is left of a flat at the slot, and how much the slot gives.

The rib that passes through the slot restores nothing unless it is welded, and then only what the weld carries.
"""

from dataclasses import dataclass

from structcheck.errors import InputError, NotCovered, Problem
from structcheck.shapes.families import PLATE
from structcheck.shapes.section import Section
from structcheck.shapes.strips import Strip, Strips, refuse_flat

REACH = 0.42
"""Depths of rib beside the slot that bend as if they were cut as well, for a half-depth slot.

0.415 by plane-stress elements on a rib 120 deep with slots of 12.5; rounded up, so that the rib gives more.
"""
HALF = (0.45, 0.55)
"""Depths over the rib's for which that figure was found."""


@dataclass(frozen=True)
class Slot:
    """A slot in a flat rib on edge, mm.

    h, t   depth and thickness of the rib
    depth  of the slot, from one edge
    width  along the rib
    """

    h: float
    t: float
    depth: float
    width: float

    def __post_init__(self) -> None:
        refuse_flat("rib", h=self.h, t=self.t, depth=self.depth, width=self.width)
        if self.depth >= self.h:
            fault, wanted = "cuts the rib through", f"less than {self.h:g} mm"
            raise InputError(Problem("depth", f"{self.depth:g} mm", fault, wanted, part="rib"))

    @property
    def left(self) -> Section:
        """The section at the slot: the flat that is left."""
        return self.welded(0.0)

    def welded(self, restored: float) -> Section:
        """The section at the slot where the crossing rib is welded to both its sides over the slot's depth.

        restored  thickness of plate the welds replace, mm: see `restored_thickness`; 0 without welds
        """
        rest, half = self.h - self.depth, min(restored, self.t) / 2
        strips = [Strip(-self.t / 2, self.t / 2, 0.0, rest, "solid", "web")]
        if half > 0:
            strips.append(Strip(-half, half, rest, self.h, "solid", "web"))
        name = f"rib {self.h:g}x{self.t:g} at a slot {self.depth:g} deep"
        dimensions = {"h": self.h, "t": self.t, "depth": self.depth}
        return Section(name, "", "plates of the user", PLATE, dimensions, geometry=Strips(tuple(strips)))

    @property
    def equivalent_length(self) -> float:
        """Length of rib that bends with the second moment at the slot, mm. Raises NotCovered unless half deep."""
        low, high = HALF
        if not low <= self.depth / self.h <= high:
            raise NotCovered(
                f"the give of a slot is known for half the rib's depth, not {self.depth / self.h:.2f} of it"
            )
        return self.width + REACH * self.h

    def give(self, E: float) -> float:
        """Turn of the rib at the slot per bending moment, beyond the whole rib's own, rad per N mm."""
        whole = self.t * self.h**3 / 12
        return self.equivalent_length / E * (1 / self.left.Iy - 1 / whole)


def restored_thickness(throat: float, runs: int, weld_strength: float, f_y: float) -> float:
    """Thickness of rib that welds across the slot replace, mm: their strength per length over the rib's yield strength.

    throat         of each run, mm
    runs           on each side of the crossing rib, along the slot's depth: two, one on each face of the slotted rib
    weld_strength  f_vw,d of the simplified method, MPa
    """
    return runs * throat * weld_strength / f_y
