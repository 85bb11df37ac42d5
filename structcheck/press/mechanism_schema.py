"""The press file's tables of what moves: springs of every kind, their seats, guides, and the jack in its place.

Lengths of a spring are those of one column of it. What the press already says is left out: the end of the stroke
follows from the jack's stroke, the offset of a guide from the jack's, a spring's rate from the bench test it names.
"""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from structcheck.errors import InputError, Problem
from structcheck.press.fields import AnyForce, AnyLength, Force, Length, Load, Mass, Part, Position, Rate, Stress, Table
from structcheck.press.names import ClassName, PostName, SizeName, SteelName, WireName


class JackPlace(Table):
    """How the jack stands in the press, and how it is worked."""

    closed: Length | None = Field(None, description="height with the ram in", examples=["230 mm"])
    screw: Position = Field(0.0, validate_default=False, description="how far the saddle's screw is run out")
    ram: Length | None = Field(None, description="diameter of the ram; the piston's if not stated")
    seat: Literal["flat", "ball"] = Field(
        "flat", description="how the saddle meets the platen: flat, or turning on a ball or spherical seat"
    )
    opening: Length | None = Field(None, description="clear height the jack and its work stand in; the frame's if not")
    packing: Position | None = Field(
        None, description="height of platen, spreaders, boards and tooling; the parts described if not stated"
    )
    work: Position = Field(0.0, validate_default=False, description="height of the work before pressing")
    squash: Position = Field(0.0, validate_default=False, description="how far the work is pressed together")
    travel: Position | None = Field(None, description="travel needed, in place of what the heights give")
    planned: Force | None = Field(None, description="greatest force the work needs")
    retained: bool | None = Field(None, description="a pocket, strap or pin keeps the jack from kicking out")
    pushed_back: bool = Field(False, description="the ram is pushed back by hand, its valve open")
    posture: Literal["upright", "lying", "inverted"] = "upright"
    inverted_oil: bool = Field(False, description="its maker allows it to pump lying or upside down")
    pump: Length | None = Field(None, description="diameter of the pump plunger")
    lever: Length | None = Field(None, description="handle from pivot to hand")
    short: Length | None = Field(None, description="handle from pivot to plunger")
    longer: Length | None = Field(None, description="a longer handle somebody means to use")
    efficiency: float = Field(0.85, gt=0, le=1, description="of pump and levers")


class Returning(Part):
    """What every kind of return spring states."""

    count: int = Field(1, ge=1, le=50, description="springs alike, side by side")
    lifts: Mass | None = Field(
        None,
        description="mass that must come back; that of the [[platen]] and each [[mass]] that moves, where described",
        examples=["25 kg"],
    )
    oil: AnyForce | None = Field(None, description="what oil and seals hold back; 500 N unless measured")
    drag: AnyForce | None = Field(
        None, description="friction of the guides that the springs must overcome; from the [[guide]] if there is one"
    )
    centre: Position | None = Field(
        None, description="of the mass, from the centre of the guides; as far off as their force if not stated"
    )
    off_line: Position | None = Field(
        None, description="how far the springs' force stands beside the centre of the guides; even about it if not"
    )
    temperature: float | None = Field(
        None, ge=-60, le=300, description="of the spring at work, degC; that of a warm platen, else 20, if not stated"
    )
    relaxation: float | None = Field(
        None, ge=0, lt=1, description="share of the force lost at that temperature, its maker's figure; 0.05 for 5 %"
    )


class SpringTable(Returning):
    """Return springs, all alike, working side by side."""

    wire: Length | None = None
    mean: Length | None = None
    outside: Length | None = None
    active: float | None = Field(None, gt=0, le=500, description="working coils")
    turns: float | None = Field(None, gt=0, le=500, description="all coils")
    ends: Literal["ground", "plain"] = "plain"
    grade: WireName = Field("unknown", examples=["SM"])
    rate: Rate | None = Field(None, description="of one spring, stated or measured")
    bench: str | None = Field(None, max_length=60, description="the bench test that gives its rate")
    free: Length | None = Field(None, description="free length", examples=["515 mm"])
    fitted: Length | None = Field(None, description="length at the top of the stroke", examples=["420 mm"])
    pressed: Length | None = Field(
        None, description="length at the end of the stroke; by the jack's stroke if not stated", examples=["270 mm"]
    )
    held: Literal["rod", "tube", "no"] = "no"
    rod: Length | None = Field(None, description="diameter of the rod inside, through its whole length")
    tube: Length | None = Field(None, description="inside diameter of the tube around, over its whole length")
    seats_parallel: bool = Field(False, description="both ends are kept parallel and cannot shift sideways")
    coiling: Literal["cold", "hot"] = "cold"
    strength: Stress | None = Field(None, description="least tensile strength of the wire, in place of its class")
    modulus: Stress | None = Field(None, description="shear modulus of the wire", examples=["70000 MPa"])
    permissible: Stress | None = Field(None, description="shear stress its maker allows when solid")
    permissible_range: Stress | None = Field(
        None, description="range of corrected shear stress its maker allows at so many presses"
    )
    wire_max: Length | None = Field(None, description="greatest wire diameter, for the solid length")
    rate_margin: Rate | None = Field(None, description="how far a measured rate may be off")


class ExtensionSpringTable(Returning):
    """Springs that pull the platen back, all alike."""

    wire: Length | None = None
    mean: Length | None = None
    outside: Length | None = None
    active: float | None = Field(None, gt=0, le=500, description="coils of the body; all work")
    grade: WireName = Field("unknown", examples=["SM"])
    rate: Rate | None = Field(None, description="of one spring, stated or measured")
    initial: AnyForce | None = Field(None, description="force that just opens the coils")
    free: Length = Field(description="length over the hooks, loose", examples=["200 mm"])
    fitted: Length = Field(description="length over the hooks at the open press", examples=["260 mm"])
    stretched: Length | None = Field(
        None, description="length at the end of the stroke; by the jack's stroke if not stated", examples=["410 mm"]
    )
    hook: Length | None = Field(None, description="mean radius of the hook; the coil's if not stated")
    bend: Length | None = Field(None, description="radius where the hook bends up; the wire's diameter if not stated")
    most: Length | None = Field(None, description="greatest length its maker permits at so many presses")
    strength: Stress | None = Field(None, description="least tensile strength of the wire, in place of its class")
    tethered: bool = Field(False, description="a cable or rod through it catches it when it breaks")


class DieSpringTable(Returning):
    """Die springs of rectangular wire, all alike."""

    rate: Rate = Field(description="of one spring, from its maker's sheet or measured", examples=["40 N/mm"])
    load_class: str | None = Field(None, max_length=40, description="its load class, never its colour")
    free: Length = Field(description="free length", examples=["100 mm"])
    fitted: Length = Field(description="length at the top of the stroke", examples=["95 mm"])
    pressed: Length | None = Field(
        None, description="length at the end of the stroke; by the jack's stroke if not stated", examples=["80 mm"]
    )
    most: Length | None = Field(None, description="greatest travel of the maker's sheet")
    held: Literal["rod", "tube", "no"] = "no"


class ReadingTable(Table):
    """One reading of a bench test, written ["420 mm", "48 kg"]."""

    length: Length = Field(description="of the spring", examples=["420 mm"])
    force: AnyForce = Field(description="on it, or the mass on the scale", examples=["48 kg"])


def _pair(given: Any) -> Any:
    if isinstance(given, list) and len(given) == 2:
        return {"length": given[0], "force": given[1]}
    wanted, remedy = "a length and a force", 'readings = [["420 mm", "48 kg"], ...]'
    raise InputError(Problem("readings", "", "holds something that is no pair", wanted, remedy))


Reading = Annotated[ReadingTable, BeforeValidator(_pair)]


class BenchTable(Part):
    """A bench test of a spring of unknown origin."""

    readings: list[Reading] = Field(
        max_length=200, description="length and force of each", examples=['[["420 mm", "48 kg"], ...]']
    )
    free: Length | None = Field(None, description="measured before the test, loose", examples=["515 mm"])
    after: Length | None = Field(None, description="measured after it, loose", examples=["514 mm"])


class SpringSeatTable(Part):
    """Where a spring bears."""

    spring: str | None = Field(None, max_length=60, description="the spring that stands here")
    force: AnyForce | None = Field(None, description="of one spring at its shortest, where no spring is named")
    mean: Length | None = Field(None, description="mean coil diameter, where no spring is named")
    sheet: Length = Field(description="thickness of the sheet or wall the bolt goes through", examples=["5 mm"])
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S235"])
    washer: Length | None = Field(None, description="outside diameter of the washer")
    thickness: Length | None = Field(None, description="of the washer")
    washer_steel: SteelName | None = None
    hole: Length | None = Field(None, description="in the washer; 1 mm more than the bolt if not stated")
    size: SizeName | None = Field(None, description="of the bolt through the spring; none if not stated")
    bolt_class: ClassName | None = Field(None, alias="class", description="property class, or unknown")
    wall: Length | None = Field(None, description="width of the flat wall it stands on, between its webs")


class PlaceTable(Table):
    """One column of springs under the platen."""

    x: AnyLength = Field(description="along the columns, from the platen's centre", examples=["-200 mm"])
    springs: list[str] = Field(min_length=1, max_length=6, description="names of the springs, one of each")
    how: Literal["alone", "series", "nested"] = "alone"


class ReturnSetTable(Part):
    """Springs at several places that bring one platen back together; each [[spring]] stands there once."""

    places: list[PlaceTable] = Field(
        min_length=1, max_length=20, examples=['[{ x = "-200 mm", springs = ["left spring"] }]']
    )
    fitted: Length = Field(description="height of every column at the open press", examples=["420 mm"])
    stroke: Length | None = Field(None, description="full stroke; the jack's if not stated", examples=["150 mm"])
    lifts: Mass | None = Field(
        None,
        description="mass that must come back; that of the [[platen]] and each [[mass]] that moves, where described",
        examples=["25 kg"],
    )
    centre: AnyLength | None = Field(
        None, description="of that mass, from the platen's centre; as far off as the guide's force if not stated"
    )
    oil: AnyForce | None = Field(None, description="what oil and seals hold back; 500 N unless measured")
    drag: AnyForce | None = Field(
        None, description="friction that the springs must overcome; from the guide if one is named"
    )
    guide: str | None = Field(None, max_length=60, description="name of the guide the platen slides on")


class GuideTable(Part):
    """The guides of a platen."""

    length: Length = Field(description="between the outer edges of contact", examples=["120 mm"])
    offset: Position | None = Field(
        None, description="of the force from the guide; as for the jack if not stated", examples=["50 mm"]
    )
    friction: float = Field(0.35, gt=0, le=2)
    columns: Literal[1, 2, 4] = Field(1, description="alike and even about the centre")
    spacing: Length | None = Field(None, description="of the columns, along the offset")
    play: Position | None = Field(None, description="difference of the diameters, or of the widths of tube in tube")
    seam: Position = Field(0.0, validate_default=False, description="height of a weld seam inside the outer tube")
    half_width: Length | None = Field(None, description="from the centre to the edge of the platen")
    level: Length | None = Field(None, description="how far that edge may stand off level; your limit")
    force: Load | None = Field(None, description="force off the centre at rated load; the jack's if not stated")
    post: PostName | None = Field(
        None, description="section of one column, or the diameter of a round bar", examples=["RD 30"]
    )
    steel: SteelName | None = Field(None, description="of the column or wall", examples=["S355"])
    wall: Length | None = Field(None, description="flat width of the tube wall the guide pushes on")
    wall_t: Length | None = Field(None, description="thickness of that wall")
    pad: Length | None = Field(None, description="side of the square it pushes with")
    warm: float | None = Field(None, ge=-60, le=300, description="temperature of the platen, degC")
    frame: float = Field(20.0, ge=-60, le=300, description="temperature of the columns, degC")
    metal: Literal["steel", "aluminium"] = Field("steel", description="of the platen")


class MechanismTables(Table):
    """The tables of a press file that describe what moves."""

    spring: list[SpringTable] = Field(default_factory=list)
    guide: list[GuideTable] = Field(default_factory=list)
    extension_spring: list[ExtensionSpringTable] = Field(default_factory=list)
    die_spring: list[DieSpringTable] = Field(default_factory=list)
    spring_seat: list[SpringSeatTable] = Field(default_factory=list)
    return_set: list[ReturnSetTable] = Field(default_factory=list)
    bench: list[BenchTable] = Field(default_factory=list)
