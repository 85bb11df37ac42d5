"""An end plate of a press corner as described, the member it is bolted to, and what it carries."""

import math
from dataclasses import fields
from functools import cached_property
from itertools import pairwise

from structcheck.checks.basis import Case
from structcheck.checks.bolts_group import normal_clearance
from structcheck.checks.web_resistance import Stiffeners
from structcheck.checks.weld_room import throat_above
from structcheck.errors import InputError, Problem
from structcheck.materials.bolts import BoltClass, BoltSize
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.section import Section


@record
class Support:
    """The member bolted to, by the flange of an I or H or by the face of a tube.

    past        how far it goes on past the plate's nearer end, mm; None: not stated
    stiffeners  pair of flats on its web in the line of the beam's flange in compression
    turned      of a tube: the face bolted to is its side h
    through     of a tube: the bolts run through both its walls
    capped      of a tube: its end is closed by a plate welded all round
    """

    section: Section
    steel: Steel
    past: float | None = None
    stiffeners: Stiffeners | None = None
    turned: bool = False
    through: bool = False
    capped: bool = False


@record(kw_only=True)
class EndPlate:
    """An end plate with two bolts a row.

    plate, width, steel   thickness and width of the plate, its steel
    depth, flange, web    of the beam: depth over all, flange and web thickness; flange_width of its flange
    beam, beam_steel      its section, where known; its steel, None: the plate's
    gauge                 between the two bolts of a row
    rows                  height of each row above the outer face of the flange in compression
    top                   height of the plate's end on the tension side, from the same face
    past                  how far the plate goes on past that face; None: not stated
    web_throat, flange_throat  of the fillets between beam and plate
    behind                thickness of the flange bolted to; behind_lever (m), behind_edge (e), behind_steel
    support               the whole member bolted to, where it is known
    grip                  plates and washers between head and nut
    """

    name: str
    size: BoltSize
    bolt_class: BoltClass
    steel: Steel
    plate: float
    width: float
    depth: float
    flange: float
    flange_width: float
    web: float
    gauge: float
    rows: tuple[float, ...]
    top: float
    web_throat: float
    flange_throat: float
    past: float | None = None
    beam: Section | None = None
    beam_steel: Steel | None = None
    behind: float | None = None
    behind_lever: float | None = None
    behind_edge: float | None = None
    behind_steel: Steel | None = None
    support: Support | None = None
    grip: float | None = None

    def __hash__(self) -> int:
        """Worked out once: what is remembered of a plate is looked up by it hundreds of times."""
        return self._hash

    @cached_property
    def _hash(self) -> int:
        return hash(tuple(getattr(self, field.name) for field in fields(self)))

    @property
    def centre(self) -> float:
        """Height of the centre of compression: the middle of the compressed flange."""
        return self.flange / 2

    @cached_property
    def heights(self) -> tuple[float, ...]:
        """Rows from the tension side down."""
        return tuple(sorted(self.rows, reverse=True))

    @property
    def edge(self) -> float:
        """e_min of 6.2.4, mm: bolt to the nearer edge of plate and flange behind; prying leans on what both cover."""
        own = (self.width - self.gauge) / 2
        return own if self.behind_edge is None else min(own, self.behind_edge)

    @property
    def outside(self) -> int:
        """Number of rows beyond the flange in tension: none or one."""
        return sum(row > self.depth for row in self.rows)

    @property
    def d_0(self) -> float:
        """Normal round holes, mm."""
        return self.size.d + normal_clearance(self.size.d)

    @property
    def of_beam(self) -> Steel:
        """Steel of the beam."""
        return self.beam_steel or self.steel

    @property
    def on_tube(self) -> bool:
        """Whether it is bolted to a tube's wall."""
        return self.support is not None and self.behind is None

    @property
    def ends(self) -> tuple[float | None, float | None]:
        """From the first and the last row to an end of the member behind; None where it goes on, or is not stated."""
        if self.support is None or self.support.past is None:
            return None, None
        heights = self.heights
        return self.top - heights[0] + self.support.past, heights[-1] + (self.past or 0.0) + self.support.past


@record
class EndPlateLoads:
    """Moment (pulling on the top rows), pull along the beam and shear on the plate in one case.

    pressed  stress pressing along the face bolted to, MPa; None: not known
    """

    case: Case
    moment: float = 0.0
    pull: float = 0.0
    shear: float = 0.0
    pressed: float | None = None


def validate(part: EndPlate) -> None:
    """Raise InputError where the plate cannot be built."""
    problems = []

    def wrong(key: str, given: float, fault: str, wanted: str) -> None:
        problems.append(Problem(key, f"{given:g} mm", fault, wanted, part=f'end plate "{part.name}"'))

    half_head = part.size.e_min / 2
    if not part.rows:
        wrong("rows", 0, "hold no bolts", "one height or more")
    for row in part.rows:
        for face, inner in ((part.depth, part.depth - part.flange), (part.flange, 0.0)):
            toe = half_head + part.flange_throat * math.sqrt(2)
            if inner - toe < row < face + toe:
                wrong("rows", row, "puts a head on a flange or its weld", f"{toe:.0f} mm clear of the flange's faces")
    near = next(((a, b) for a, b in pairwise(part.heights) if a - b < part.size.e_min), None)
    if near:
        wrong("rows", near[0], f"puts heads on those of the row at {near[1]:g} mm", f"{part.size.e_min:.0f} mm apart")
    if part.past is not None and min(part.rows, default=0.0) < part.size.d / 2 - part.past:
        wrong("rows", min(part.rows), "is off the plate's lower end", f"more than {part.size.d / 2 - part.past:g} mm")
    least = part.plate + (part.behind or 0.0)
    if part.grip is not None and part.grip < least - 0.05:
        wrong("grip", part.grip, "is less than the plates clamped", f"{least:g} mm or more")
    if part.outside > 1:
        wrong("rows", max(part.rows), "is a second row beyond the flange", "one row at most (6.2.7.2)")
    if part.gauge / 2 - part.web / 2 - part.web_throat * math.sqrt(2) < half_head:
        wrong("gauge", part.gauge, "puts the heads on the web's weld", f"{half_head:.0f} mm clear of it")
    if part.width <= part.gauge + part.size.d:
        wrong("width", part.width, "leaves no edge beside the bolts", f"more than {part.gauge + part.size.d:g} mm")
    for key, t in (("web_throat", part.web), ("flange_throat", part.flange)):
        problems += throat_above(key, getattr(part, key), min(t, part.plate), part.of_beam, True)
    if part.rows and part.top <= max(part.rows) + part.size.d / 2:
        wrong("top", part.top, "ends the plate in a hole", f"more than {max(part.rows) + part.size.d / 2:g} mm")
    if problems:
        raise InputError(problems).within(part=f'end plate "{part.name}"')
