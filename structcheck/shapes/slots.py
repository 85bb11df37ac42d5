"""Half-lap slots in crossing ribs: what is left of a flat at the slot, what a weld gives back, how much it gives.

The rib that passes through the slot restores nothing unless it is welded, and then only what the weld carries.
"""

from dataclasses import dataclass
from typing import Literal

from structcheck.errors import InputError, NotCovered, Problem
from structcheck.shapes.bars import Rectangle
from structcheck.shapes.families import PLATE
from structcheck.shapes.section import Section
from structcheck.shapes.shape import Fibre, Shape, check_axis
from structcheck.shapes.strips import Strip, Strips, refuse_flat

REACH = 0.42
"""Depths of rib beside the slot that bend as if they were cut as well, for a half-depth slot.

0.415 by plane-stress elements on a rib 120 deep with slots of 12.5; rounded up, so that the rib gives more.
"""
HALF = (0.45, 0.55)
"""Depths over the rib's for which that figure was found."""


@dataclass(frozen=True)
class SlotWeld:
    """The weld that closes a slot: the slotted rib's two ends to both sides of the rib that passes through it, mm.

    kind      "fillets", four of them, on both faces of the slotted rib; or "butt", of full penetration
    throat    of each fillet
    length    measured from the open end of the slot; None: all its depth
    returned  its ends are full size; else a throat, or the rib's thickness, is lost at each
    """

    kind: Literal["fillets", "butt"]
    throat: float | None = None
    length: float | None = None
    returned: bool = False


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
    def rest(self) -> float:
        """Depth of the rib that the slot leaves, mm."""
        return self.h - self.depth

    @property
    def left(self) -> Section:
        """The section at the slot: the flat that is left."""
        if self.rest >= self.t:
            return self._section(Rectangle(self.rest, self.t))
        return self._section(Strips((Strip(-self.t / 2, self.t / 2, 0.0, self.rest, "solid", "web"),)))

    def welded(self, weld: SlotWeld) -> Section:
        """The section at the slot with its weld, softer than the rib: as thick over the weld as both throats together.

        What is left alone where that is the stronger: a weld too small restores nothing.
        """
        thickness = self.t if weld.kind == "butt" else min(self.t, 2 * (weld.throat or 0.0))
        section, left = self._restored(weld, thickness), self.left
        return left if section is None or section.Wel_y <= left.Wpl_y else section

    def stiff(self, weld: SlotWeld) -> Section | None:
        """The section at the slot where the weld is as stiff as the rib, which loads the weld most; None: no weld."""
        return self._restored(weld, self.t)

    def _restored(self, weld: SlotWeld, thickness: float) -> Section | None:
        lost = 0.0 if weld.returned else self.t if weld.kind == "butt" else weld.throat or 0.0
        length = min(self.depth if weld.length is None else weld.length, self.depth)
        low, high = self.h - length + lost, self.h - lost
        if not (high > low and thickness > 0):
            return None
        strips = (
            Strip(-self.t / 2, self.t / 2, 0.0, self.rest, "solid", "web"),
            Strip(-thickness / 2, thickness / 2, low, high, "solid", "web"),
        )
        return self._section(ClosedSlot(strips, left=self.left))

    def _section(self, shape: Shape) -> Section:
        name = f"rib {self.h:g}x{self.t:g} at a slot {self.depth:g} deep"
        dimensions = {"h": self.h, "t": self.t, "depth": self.depth}
        return Section(name, "", "plates of the user", PLATE, dimensions, geometry=shape)

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


@dataclass(frozen=True, eq=False)
class ClosedSlot(Strips):
    """A rib at a welded slot: elastic, and the weld counts in bending about y and along the rib only.

    strips  what the slot leaves, then what stands for the weld
    left    what the slot leaves, which alone bears shear, torsion and bending about z, and leans sideways
    """

    left: Section | None = None

    @property
    def _rest(self) -> Section:
        assert self.left is not None
        return self.left

    @property
    def Iz(self) -> float:
        """Of what is left, mm4."""
        return self._rest.Iz

    @property
    def Wpl_y(self) -> float:
        """The elastic modulus, mm3: a weld is not asked to yield."""
        return self.Wel_y

    @property
    def Wpl_z(self) -> float:
        """The elastic modulus of what is left, mm3."""
        return self.Wel_z

    @property
    def It(self) -> float:
        """Of what is left, mm4."""
        return self._rest.It

    @property
    def Wt(self) -> float:
        """Of what is left, mm3."""
        return self._rest.Wt

    def shear_area(self, axis: str, eta: float = 1.0) -> float:
        """Of what is left, mm2."""
        check_axis(axis)
        return self._rest.shear_area(axis, eta)

    @property
    def Asy(self) -> float:
        """Of what is left, mm2."""
        return self._rest.Asy

    @property
    def Asz(self) -> float:
        """Of what is left, mm2."""
        return self._rest.Asz

    def _fibre(self, name: str, axis: str, level: float, second_moment: float) -> Fibre:
        # Between the edges the parabola's peak everywhere: wherever it stands, what is left bears all the shear.
        return Fibre(name, level, 1.5 / self._rest.A)
