"""A beam and its loads as the press file describes them."""

from typing import Any, Literal

from structcheck.checks.member_forms import form
from structcheck.checks.member_lateral import Method
from structcheck.checks.member_torsion import warping
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.section import Section


@record
class Beam:
    """A beam as the press file describes it, lengths in mm.

    pieces          pieces side by side that share the load equally
    supports        simple, fixed, propped or cantilever
    limit           the user's greatest deflection; None: an answer, no verdict
    tied            pieces tied together at the load and at each support, so that they cannot twist; None: not stated,
                    judged untied
    load_height     how far the load enters before the shear centre; None: half the depth, the worst
    held_at         places held sideways and against twisting, besides the supports, from the left support
    lateral_method  "general" (6.3.2.2) or "rolled" (6.3.2.3)
    hole, holes     diameter, and number beside one another in the tension flange or wall of a piece; None: no holes
    hole_offset     of the holes from mid-depth; None: in the flange, or 1.2 diameters from the edge of a flat
    quality         JR, J0, J2, K2; None: not stated
    detail          fatigue detail (see `fatigue.DETAILS`), or "unknown"; None: not stated
    corrosion       metal lost from every face
    end_stiffeners  the web is stiffened across its depth at each support
    turned          it lies on its side: bent about its weak axis
    aside           how far a frame's load may stand off the plane of the webs, beside what stands on them
    """

    name: str
    section: Section
    steel: Steel
    pieces: int = 1
    span: float = 0.0
    supports: str = "simple"
    limit: float | None = None
    tied: bool | None = None
    load_height: float | None = None
    held_at: tuple[float, ...] = ()
    lateral_method: Method = "general"
    hole: float | None = None
    holes: int = 1
    hole_offset: float | None = None
    quality: Literal["JR", "J0", "J2", "K2"] | None = None
    detail: str | None = None
    corrosion: float = 0.0
    end_stiffeners: bool = False
    turned: bool = False
    aside: float = 0.0


@record
class BeamLoad:
    """A load at rated force: N in all, downward; `at` its middle from the left support, `over` the length it covers."""

    load: float
    at: float
    over: float = 0.0


def eccentricity(beam: Beam) -> Any:
    """Distance from the shear centre to the loads on the web of a piece that can twist, mm; 0 where none can.

    What stands `aside` of a pair turns one of the pieces further the way it turns already.
    """
    if form(beam.section) != "channel" or (beam.tied and beam.pieces > 1) or beam.turned:
        return 0.0
    return warping(beam.section).e + beam.aside
