"""What the parts of a press must carry: the words in which every shape of frame answers.

Axes of stations and end forces (section axes: y the strong axis unless the member is turned, z along its depth):

    beams     x from left to right, z up; M_y positive has tension at the bottom
    uprights  x from bed to head, z towards the middle of the frame; M_y positive has tension on the outer face
    N         tension positive; all pieces of a member together, one plane
    ends      internal forces of the beam where it meets the upright, on the upright's centre-line; "head/left face"
              the same at the upright's face, where an end plate or a weld would be

Where an axial or shear force hardly stresses a part (1 %; at a joint 5 %, axial only) all its rows carry the largest of
it, a member's as compression and a joint's as tension if either occurs: safe, and far fewer rows. Rows that another
outdoes part by part are left out; `meetings` has what a joint's row stands for beside itself. Units N, mm, N mm.
"""

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property
from typing import Any, Literal, NamedTuple

from structcheck.checks.basis import Case
from structcheck.checks.section_resistance import Station
from structcheck.findings import Outcome
from structcheck.press.frame.off_centre import Offsets
from structcheck.press.frame_schema import FrameMember
from structcheck.record import record
from structcheck.shapes.section import Section


class EndForces(NamedTuple):
    """What the joint at one end of a beam must carry in one case.

    pressed  where N hardly matters and its largest stands for it: how hard it may press instead, N
    """

    case: Case
    N: float = 0.0
    V_y: float = 0.0
    V_z: float = 0.0
    T: float = 0.0
    M_y: float = 0.0
    M_z: float = 0.0
    pressed: float = 0.0


class PlaceForce(NamedTuple):
    """A force at one place in one case.

    force          N, positive
    offset         of its line from the middle of what takes it, in the frame's plane, mm
    offset_across  the same across the plane
    moment         bending moment of the member at that place, N mm, size only
    over           length it is spread over, mm
    shear          force across its line, N
    pulled         the pressed side is the one the moment pulls

    Of the feet a force below zero lifts, and the moment is across the frame's plane.
    """

    case: Case
    force: float
    offset: float = 0.0
    offset_across: float = 0.0
    moment: float = 0.0
    over: float = 0.0
    shear: float = 0.0
    pulled: bool = False


@record
class FramePart:
    """A member of the frame, for the checks.

    steel   as named
    length  mm
    kind    "beam" between the uprights; "upright" or leg; "plate": an arm, a back, a strip of a plate; "bar": a member
            of a free frame
    table   its own table, with the keys of its checks; of a plate frame one made from [plate]
    held    between what holds it sideways, mm, where that is more than its length
    """

    section: Section
    steel: str
    pieces: int
    length: float
    kind: Literal["beam", "upright", "plate", "bar"]
    table: FrameMember
    held: float | None = None


@record
class FrameAnswer:
    """Demands of one press.

    stations  part -> internal forces that can govern, over all cases and corner states
    ends      place -> forces on the joint there, the same way
    forces    place -> forces on what else must carry: "bed/load" and "head/load" (the beam under the jack or the work),
              "jack foot", "saddle", "platen", "guides" (force on the guides of one side), "feet", "pin/left" ...
    members   part -> section, steel, pieces and length, under the names of `stations`
    off       how far off the frame's middle the force may stand
    needed    (place, what must be described there): the load path of this shape
    meetings  ends of members that meet, of which all but one need a joint
    stood_on  what the jack's foot stands on
    outcome   answers, findings, assumptions of the frame itself
    drawing   what was understood, in plain text
    opening   clear height between head and bed, mm; None where the shape does not tell
    clear     clear width between the uprights, mm; None where the shape does not tell
    """

    stations: Mapping[str, tuple[Station, ...]]
    ends: Mapping[str, tuple[EndForces, ...]]
    forces: Mapping[str, tuple[PlaceForce, ...]] = field(default_factory=dict)
    members: Mapping[str, FramePart] = field(default_factory=dict)
    off: Offsets = field(default_factory=lambda: Offsets(0.0, 0.0))
    needed: tuple[tuple[str, str], ...] = ()
    meetings: tuple[tuple[str, ...], ...] = ()
    stood_on: frozenset[str] = frozenset()
    outcome: Outcome = field(default_factory=Outcome)
    drawing: str = ""
    opening: float | None = None
    clear: float | None = None

    @cached_property
    def memo(self) -> dict[Any, Any]:
        """What joints of the same places ask of it alike."""
        return {}
