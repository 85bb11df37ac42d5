"""The press file's tables that describe the frame: geometry only, every force is computed.

Positions in the frame's plane are measured from the left upright's centre-line, or from the middle where they say so;
heights from the bed's centre-line.
"""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema

from structcheck.errors import Problem, QuantityError
from structcheck.press.fields import (
    PLATE_SIZE,
    AnyForce,
    AnyLength,
    Force,
    Length,
    Load,
    Mass,
    Position,
    Rate,
    Table,
    spell,
)
from structcheck.press.names import SectionName, SizeName, SteelName
from structcheck.quantities import MOMENT, read

CORNERS = ("head/left", "head/right", "bed/left", "bed/right")


def _read_stiffness(given: Any, info: ValidationInfo) -> str | float:
    """ "rigid", "pinned", "unknown", or a rotational stiffness in N mm/rad."""
    key = spell(info.field_name or "", info)
    text = given.strip() if isinstance(given, str) else given
    if text in ("rigid", "pinned", "unknown"):
        return text
    wanted = '"rigid", "pinned", "unknown", or a moment per radian'
    remedy = f'{key} = "800 kN m/rad"'
    if not isinstance(text, str) or not text.endswith("/rad"):
        shown = f'"{given[:60]}"' if isinstance(given, str) else repr(given)[:40]
        raise QuantityError(Problem(key, shown, "is not a stiffness of a joint", wanted, remedy))
    value = read(text.removesuffix("/rad"), MOMENT, key)
    if value <= 0:
        raise QuantityError(Problem(key, f'"{given}"', "must be above zero", wanted, remedy))
    return value


JointStiffness = Annotated[
    str | float,
    BeforeValidator(_read_stiffness),
    WithJsonSchema({"type": "string", "examples": ["unknown", "rigid", "pinned", "800 kN m/rad"]}),
]


def _read_joint(given: Any, info: ValidationInfo) -> str | float:
    """The same, or "one piece": the member goes on through its node."""
    return ONE_PIECE if isinstance(given, str) and given.strip() == ONE_PIECE else _read_stiffness(given, info)


ONE_PIECE = "one piece"
MemberJoint = Annotated[
    str | float,
    BeforeValidator(_read_joint),
    WithJsonSchema({"type": "string", "examples": ["unknown", "rigid", "pinned", "one piece", "800 kN m/rad"]}),
]


def _read_turning(given: Any, info: ValidationInfo) -> float:
    """A moment per radian, N mm/rad."""
    value = _read_stiffness(given, info)
    if isinstance(value, str):
        key = spell(info.field_name or "", info)
        wanted, remedy = "a moment per radian", f'{key} = "800 kN m/rad"'
        raise QuantityError(Problem(key, f'"{value}"', "is no spring", wanted, remedy))
    return value


Turning = Annotated[
    float, BeforeValidator(_read_turning), WithJsonSchema({"type": "string", "examples": ["800 kN m/rad"]})
]


class FrameTable(Table):
    """What kind of frame it is, and its measures."""

    shape: Literal["closed", "H", "posts", "C", "O", "members"] = Field("closed", description="kind of frame")
    planes: int = Field(1, ge=1, le=6, description="frames side by side")
    spacing: Length | None = Field(None, description="between planes, centre to centre")
    span: Length | None = Field(None, description="between the upright centre-lines", examples=["700 mm"])
    height: Length | None = Field(None, description="between the beam centre-lines", examples=["1070 mm"])
    opening: Length | None = Field(None, description="clear height between bed and head, in place of height")
    corners: JointStiffness = Field("unknown", description="how all corners turn, where not stated one by one")
    jack_on: Literal["bed", "head"] = Field("bed", description="the beam the jack stands on or hangs from")
    jacks: list[AnyLength] | None = Field(None, description="where the jacks stand, from the middle, to the right")
    tooling: Length | None = Field(None, description="width of the tooling, for the offset to allow for")
    rigid_zones: bool | None = Field(
        None, description="beams and uprights are rigid within each other's depth; asked for where corners are welded"
    )


class SpreaderTable(Table):
    """A plate between what presses and the beam."""

    along: Length = Field(description="along the beam")
    across: Length = Field(description="across the beam")
    thickness: Length
    steel: SteelName | None = Field(None, description="that of the beam if not stated")


class StiffenersTable(Table):
    """A pair of flats across each web, from flange to flange, under the load."""

    width: Length = Field(description="of each flat, square to the web")
    thickness: Length
    steel: SteelName | None = Field(None, description="that of the beam if not stated")
    ends_held: bool = Field(False, description="both flanges are held sideways there")


class FrameMember(Table):
    """A member of the frame."""

    section: SectionName | None = Field(None, description="a section, as the yard names it", examples=["UPN 120"])
    width: Length | None = Field(None, description="of a plate in place of a section, across the frame's plane")
    thickness: Length | None = Field(None, description="of that plate; it lies flat")
    thread: SizeName | None = Field(None, description="an upright threaded over its length, in place of a section")
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S235"])
    pieces: int = Field(1, ge=1, le=20, description="pieces side by side that share the force equally")
    apart: Position | None = Field(None, description="clear distance between the pieces")
    turned: bool = Field(False, description="bent about the weak axis in the frame's plane")


class FrameBeam(FrameMember):
    """The head or the bed."""

    over: Position = Field(0.0, validate_default=False, description="length the force is spread over on it; 0 is safe")
    level: Length | None = Field(None, description="H-frame: height of the bed's pins above the feet")
    pin_offset: Position = Field(0.0, validate_default=False, description="H-frame: pin off the upright's centre-line")
    rolls: Position = Field(0.0, validate_default=False, description="how far the jack may roll off the middle")


class Pulled(Table):
    """What any upright may say of itself."""

    hole: Length | None = Field(None, description="diameter of holes through a piece")
    holes: int = Field(1, ge=1, le=8, description="walls drilled through at one cross-section of a piece")
    hole_offset: Position = Field(0.0, validate_default=False, description="of the holes from the middle line")
    quality: Literal["JR", "J0", "J2", "K2"] | None = Field(None, description="toughness letters of the steel")
    detail: str | None = Field(None, description="fatigue detail at the most stressed place", max_length=80)
    corrosion: Position = Field(0.0, validate_default=False, description="metal lost from every face")


class Standing(Pulled, FrameMember):
    """A member judged as an upright is: by its sections, and by buckling where it is pressed."""


class Uprights(Standing):
    """The uprights; left and right are alike."""


class PlateFrame(Table):
    """A C-frame or an O-frame cut from plate."""

    thickness: Length = Field(description="of one plate", examples=["40 mm"])
    pieces: int = Field(1, ge=1, le=8, description="plates side by side that share the force equally")
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S355"])
    back: Length = Field(description="depth of the back, or of each side of an O", examples=["200 mm"])
    upper: Length = Field(description="depth of the upper arm", examples=["200 mm"])
    lower: Length = Field(description="depth of the lower arm", examples=["200 mm"])
    radius: Length = Field(description="of the inner corners", examples=["30 mm"])
    edge: Literal["unknown", "smooth"] = Field("unknown", description="smooth: cut evenly, all flaws ground away")
    quality: Literal["JR", "J0", "J2", "K2"] | None = Field(None, description="toughness letters of the steel")
    detail: str | None = Field(None, description="fatigue detail where the plate is most stressed", max_length=80)
    reach: Length | None = Field(None, description="C: from the back's inner edge to the line of the force")
    window: Length | None = Field(None, description="O: clear width of the window")


class CornerTable(Table):
    """One corner."""

    stiffness: JointStiffness = Field(
        description="how the corner turns in the frame's plane", examples=["800 kN m/rad"]
    )


class Guides(Table):
    """What takes the couple when the work pushes back beside the jack."""

    on: Literal["uprights", "rods", "ram"] = Field(
        "uprights",
        description="the platen slides on the uprights, on rods between bed and head, or its ram is built in",
    )
    height: Length | None = Field(None, description="middle of the guides above the bed's centre-line; half way if not")
    length: Length | None = Field(None, description="length over which the guides bear, along the upright")


class Retention(Table):
    """How loose things are kept in place, in the builder's words."""

    jack_foot: str | None = Field(None, max_length=120, description="what keeps the jack's foot", examples=["ring"])
    saddle: str | None = Field(None, max_length=120, description="what keeps the saddle", examples=["socket 10 deep"])
    bed_pins: str | None = Field(None, max_length=120, description="what keeps the bed's pins", examples=["split pins"])
    packers: str | None = Field(
        None, max_length=120, description="what keeps packers; none if none lie in the line of force"
    )


class Feet(Table):
    """What the frame stands on."""

    width: Length | None = Field(None, description="between the outer edges of the feet, in the frame's plane")
    depth: Length | None = Field(None, description="the same across the frame's plane")
    below: Position | None = Field(
        None, description="floor below the centre-line of the bed or lower arm, or below the lowest supported node"
    )
    behind: Position | None = Field(None, description="C: how far they reach behind the back's outer edge")
    bolted: bool = Field(False, description="bolted to the floor")
    tie: bool = Field(False, description="H-frame: the feet are joined stiffly to each other near the floor")
    handle: Position | None = Field(None, description="height of the pump handle above the floor")
    pumping: AnyForce = Field(450.0, validate_default=False, description="force on the pump handle")


class AddedMass(Table):
    """A hood, a box, tooling: something that is no member and has weight."""

    name: str = Field(min_length=1, max_length=60, description="what it is")
    mass: Mass
    height: Position | None = Field(None, description="its middle above the floor")
    out: Position | None = Field(None, description="C: its middle in front of the back's outer edge")
    node: str | None = Field(None, max_length=60, description="members: the node it hangs on")
    moves: bool | None = Field(None, description="it moves with the platen; counted as moving if not stated")


class Stops(Table):
    """Collars or stops on the uprights that the platen meets: then the jack pulls on the uprights, not on the head."""

    height: Length = Field(description="above the bed's centre-line")
    offset: Position = Field(0.0, validate_default=False, description="where it bears, from the upright's centre-line")


class Dial(Table):
    """A dial gauge between two places: how far a beam or member moves from the line between its ends."""

    on: str = Field(description="head or bed; a member's name", examples=["head"])
    at: Position = Field(description="from the left upright's centre-line; from the member's start")


class NodeTable(Table):
    """A node of a frame given as nodes and members; z is up."""

    name: str = Field(min_length=1, max_length=60)
    x: AnyLength
    y: AnyLength = Field(0.0, validate_default=False)
    z: AnyLength


class MemberTable(Standing):
    """A straight member between two nodes; its strong axis bends it in the plane that holds the vertical."""

    name: str = Field(min_length=1, max_length=60)
    start: str = Field(description="a node's name", examples=["A"])
    end: str = Field(description="a node's name", examples=["B"])
    at_start: MemberJoint = Field("unknown", description="how its start turns against the node")
    at_end: MemberJoint = Field("unknown", description="how its end turns against the node")
    zone_start: Position = Field(0.0, validate_default=False, description="rigid from its start node to the joint")
    zone_end: Position = Field(0.0, validate_default=False, description="rigid from the joint to its end node")
    buckling_length: Length | None = Field(None, description="about the strong axis; its length if not stated")
    buckling_length_across: Length | None = Field(None, description="about the weak axis; its length if not stated")


class SpringsTable(Table):
    """Stiffness in the directions of the axes: N/mm along, a moment per radian about them."""

    x: Rate | None = None
    y: Rate | None = None
    z: Rate | None = None
    rx: Turning | None = None
    ry: Turning | None = None
    rz: Turning | None = None

    def stated(self) -> dict[str, float]:
        """The directions that have a spring, N/mm and N mm/rad."""
        return {way: getattr(self, way) for way in type(self).model_fields if getattr(self, way) is not None}


class LinkSpringsTable(SpringsTable):
    """The same between two nodes, where a spring may also lie along the line from one to the other."""

    along: Rate | None = None


class SupportTable(Table):
    """What holds a node to the ground, stiffly or by springs."""

    node: str
    holds: str | None = Field(
        None, description="directions held: x y z rx ry rz; x y z if nothing is stated", examples=["x y z"]
    )
    springs: SpringsTable | None = Field(None, description="directions held by springs")

    @property
    def held(self) -> str:
        """The directions held stiffly."""
        if self.holds is None:
            return "" if self.springs else "x y z"
        return self.holds


class LinkTable(Table):
    """Springs between two nodes, for what is no member: a rubber pad, a stack of disc springs."""

    name: str = Field(min_length=1, max_length=60)
    start: str = Field(description="a node's name", examples=["A"])
    end: str = Field(description="a node's name", examples=["B"])
    springs: LinkSpringsTable
    bears: Force | None = Field(None, description="greatest force it may carry, by its maker")


class PushTable(Table):
    """A jack between two members or nodes: it pushes them apart."""

    start: str = Field(description="the member or node the jack stands on", examples=["bar"])
    end: str = Field(description="the member or node the work bears on", examples=["head"])
    start_at: Position | None = Field(
        None, description="where on that member, from its start; its middle if not stated"
    )
    end_at: Position | None = Field(None, description="the same on the other")
    share: float | None = Field(None, gt=0, le=1, description="share of the force of all jacks; alike if not stated")


class FrameLoadTable(Table):
    """A force on a member or a node that is not the jack's own push; it grows with the jack's force."""

    on: str = Field(description="a member or a node", examples=["bar"])
    load: Load
    way: Literal["x", "-x", "y", "-y", "z", "-z"] = Field(description="where it pushes", examples=["-z"])
    at: Position | None = Field(None, description="where on the member, from its start; its middle if not stated")
    over: Position = Field(0.0, validate_default=False, description="length of the member it is spread over")


class EdgeTable(Table):
    """How forces enter an arm or a beam of a frame cut from plate, whose edge they press."""

    pad: Length | None = Field(None, description="what presses on it: length along the edge, or diameter")
    pad_across: Length | None = Field(None, description="its width across the plates; round if not stated")
    apart: Position | None = Field(None, description="clear distance between the plates")
    spreader: Annotated[SpreaderTable | None, PLATE_SIZE] = Field(
        None, description="plate under the pad: along x across x thickness", examples=["120 x 120 x 20 mm"]
    )
    beyond: Position | None = Field(None, description="C: arm beyond the line of the force")


class FrameTables(Table):
    """The tables of a press file that describe its frame; all may be left out together."""

    frame: FrameTable | None = None
    head: FrameBeam | None = None
    bed: FrameBeam | None = None
    uprights: Uprights | None = None
    plate: PlateFrame | None = None
    corner: dict[Literal["head/left", "head/right", "bed/left", "bed/right"], CornerTable] = Field(default_factory=dict)
    guides: Guides | None = None
    retention: Retention | None = None
    feet: Feet | None = None
    stops: Stops | None = None
    mass: list[AddedMass] = Field(default_factory=list)
    dial: list[Dial] = Field(default_factory=list)
    node: list[NodeTable] = Field(default_factory=list)
    member: list[MemberTable] = Field(default_factory=list)
    support: list[SupportTable] = Field(default_factory=list)
    push: list[PushTable] = Field(default_factory=list)
    link: list[LinkTable] = Field(default_factory=list)
    load: list[FrameLoadTable] = Field(default_factory=list)
    upper: EdgeTable | None = None
    lower: EdgeTable | None = None
