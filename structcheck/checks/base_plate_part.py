"""A foot plate as described, and what it carries."""

from collections.abc import Sequence
from dataclasses import replace

from structcheck.checks.basis import Case
from structcheck.errors import NotCovered
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.section import Section


@record(kw_only=True)
class BasePlate:
    """A plate under a member, the member on its middle; lengths in mm.

    section        of the member that stands on it
    length, width  of the plate along the member's depth and across it
    concrete       cylinder strength f_ck in MPa of what it stands on; None: on steel
    bed            steel of what it stands on; None: on concrete
    concentration  sqrt(A_c1 / A_c0) of EN 1992-1-1 6.7, at most 3
    pieces, apart  equal members side by side across their depth, on the plate's middle together, and what is between
    throat, leg    of the fillets along every wall of the member; neither: not stated
    section_steel  of the member; None: as the plate
    inspected, weldable  of these fillets, as of any
    killed         a cold-formed tube is of aluminium-killed steel, fit for welding at its corners
    """

    name: str
    section: Section
    steel: Steel
    length: float
    width: float
    thickness: float
    concrete: float | None = None
    bed: Steel | None = None
    concentration: float = 1.0
    pieces: int = 1
    apart: float | None = None
    throat: float | None = None
    leg: float | None = None
    section_steel: Steel | None = None
    inspected: bool = False
    weldable: bool = False
    killed: bool = False

    @property
    def stand(self) -> tuple[float, ...]:
        """Where the middle of each piece stands across the depth, from the plate's middle. NotCovered if not known."""
        if self.pieces == 1:
            return (0.0,)
        if self.apart is None:
            raise NotCovered("pieces under which a foot plate lies need the distance between them (`apart`)")
        left, right = self.section.edges[:2]
        step = right - left + self.apart
        return tuple((i - (self.pieces - 1) / 2) * step for i in range(self.pieces))

    @property
    def under_one(self) -> "BasePlate":
        """The strip of plate under one piece, no wider than reaches half way to the next and to the plate's edge."""
        places = self.stand
        if len(places) == 1:
            return self
        step = places[1] - places[0]
        return replace(self, pieces=1, width=2 * min(step / 2, self.width / 2 - places[-1]))


@record
class BasePlateLoads:
    """Push on the plate (below zero it is pulled off), moments along depth and width, and shear, in one case."""

    case: Case
    push: float
    moment: float = 0.0
    moment_across: float = 0.0
    shear: float = 0.0

    def on_pieces(self, places: Sequence[float]) -> "list[BasePlateLoads]":
        """What each of several pieces carries: bent across their depth they push and pull by their distance."""
        n = len(places)
        if n == 1:
            return [self]
        square = sum(place**2 for place in places)
        shared = replace(self, moment=self.moment / n, moment_across=0.0, shear=self.shear / n)
        return [replace(shared, push=self.push / n + self.moment_across * place / square) for place in places]
