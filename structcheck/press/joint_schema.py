"""The press file's tables of joints beside plain bolts, fillets and pins.

Every one takes its loads as typed, or stands `at` a place of the described frame and takes its forces from there.
What the frame already says (the beam's section, the upright's) is left out there.
"""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo

from structcheck.errors import Problem, QuantityError
from structcheck.press.fields import (
    FLAT_SIZE,
    Angle,
    AnyLength,
    AnyStress,
    Length,
    Load,
    Moment,
    Part,
    Position,
    Table,
    spell,
)
from structcheck.press.frame_schema import StiffenersTable
from structcheck.press.listed import lengths, run_of_weld, three_of
from structcheck.press.names import ClassName, PlaceNames, SectionName, SizeName, SteelName


def _three(example: str, short: str) -> BeforeValidator:
    """Exactly three values, along x, y and z; or one text that holds them."""

    def validate(given: Any, info: ValidationInfo) -> Any:
        if isinstance(given, list | tuple) and len(given) == 3:
            return list(given)
        if (written := three_of(given)) is not None:
            return written
        key = spell(info.field_name or "", info)
        fault, wanted = "is no triple", "three values, along x, y and z"
        remedy = f"{key} {short}" if key.startswith("--") else f"{key} = {example}"
        raise QuantityError(Problem(key, "", fault, wanted, remedy))

    return BeforeValidator(validate)


Point = Annotated[list[AnyLength], _three('["0 mm", "0 mm", "60 mm"]', '"0 0 60 mm"')]
Direction = Annotated[list[float], _three("[0.0, 0.0, -1.0]", '"0 0 -1"')]
Moments = Annotated[list[Moment], _three('["0 kN m", "1 kN m", "0 kN m"]', '"0 1 0 kN m"')]

STEEL = "a steel grade, or unknown"
WELDABLE = "the user states that an unknown steel can be welded"
WeldedOn = Literal["plain", "galvanised", "hardened", "threaded"]
ON = "what the parts are where they are welded"
GUSSET = "at a place: the runs stand on a gusset, haunch or cleat, which may be longer than the member's end"
KILLED = "tubes of aluminium-killed steel, fit for welding at their corners"
INSPECTED = "tested by somebody competent"


class Standing(Part):
    """A joint that may stand at a place of the described frame."""

    at: PlaceNames | None = Field(
        None, description="places in the described frame", examples=["head/left", "bed/right"]
    )


class EndPlateTable(Standing):
    """A beam's end welded to a plate that is bolted to a flange; heights from the outer face of its lower flange."""

    size: SizeName = Field(description="thread size", examples=["M16"])
    bolt_class: ClassName = Field(alias="class", description="property class, or unknown", examples=["8.8"])
    plate: Length = Field(description="thickness of the plate", examples=["15 mm"])
    width: Length = Field(description="of the plate", examples=["120 mm"])
    steel: SteelName = Field(description=STEEL, examples=["S235"])
    gauge: Length = Field(description="between the two bolts of a row", examples=["70 mm"])
    rows: Annotated[list[AnyLength], lengths("40 120 mm")] = Field(
        min_length=1, max_length=12, description="height of each row of two bolts", examples=['["40 mm", "120 mm"]']
    )
    top: Length = Field(description="height of the plate's upper end", examples=["165 mm"])
    below: AnyLength | None = Field(
        None, description="how far the plate goes below the lower flange; as far as above the upper one if not stated"
    )
    web_throat: Length = Field(description="of the fillets between web and plate", examples=["3 mm"])
    flange_throat: Length = Field(description="of the fillets between flanges and plate", examples=["4 mm"])
    section: SectionName | None = Field(None, description="of the beam, an I or H; the frame's if not stated")
    beam_steel: SteelName | None = Field(None, description="of the beam; the frame's, else the plate's")
    behind_section: SectionName | None = Field(
        None, description="I or H bolted to by its flange, or a tube by its face; the frame's upright"
    )
    behind: Length | None = Field(None, description="thickness of the flange bolted to, in place of behind_section")
    behind_lever: Length | None = Field(None, description="bolt to the root of that flange")
    behind_edge: Length | None = Field(None, description="bolt to the edge of that flange")
    behind_steel: SteelName | None = None
    behind_past: Position | None = Field(
        None, description="how far what is bolted to goes on past the plate, at its nearer end"
    )
    behind_capped: bool = Field(False, description="a tube's end there is closed by a plate welded all round")
    behind_stiffeners: Annotated[StiffenersTable | None, FLAT_SIZE] = Field(
        None,
        description="pair of flats on its web in line with each of the beam's flanges: width x thickness",
        examples=["60 x 8 mm"],
    )
    behind_stress: AnyStress | None = Field(
        None, description="pressing along the face bolted to at rated load; the frame's", examples=["0 MPa"]
    )
    through: bool = Field(False, description="the bolts run through both walls of a tube")
    grip: Length | None = Field(None, description="plates and washers between head and nut")
    moment: Moment | None = Field(None, description="at rated load; above zero it pulls on the upper rows")
    pull: Load | None = Field(None, description="along the beam")
    shear: Load | None = Field(None, description="along the plate")


class RodTable(Standing):
    """Threaded rods or studs that share a pull."""

    size: SizeName = Field(description="thread size", examples=["M20"])
    bolt_class: ClassName = Field(alias="class", description="property class, or unknown", examples=["4.6"])
    length: Length = Field(description="free length between the nuts", examples=["900 mm"])
    count: int = Field(1, ge=1, le=20, description="rods that share the pull evenly")
    nut: Length | None = Field(None, description="height of the nut; a standard one if not stated")
    tapped: Length | None = Field(None, description="length screwed into a plate, at one end or both")
    tapped_steel: SteelName | None = Field(None, description="of that plate")
    rolled: bool = Field(False, description="thread rolled, or cut by a maker to EN 1090; else x 0.85")
    tilt: Angle | None = Field(None, description="seat out of square", examples=["1 deg"])
    pull: Load | None = None


class TubeJointTable(Standing):
    """A tube or a flat welded square to the face of a tube."""

    chord: SectionName | None = Field(
        None, description="the tube whose face is welded to; the frame's upright", examples=["SHS 100x100x5"]
    )
    chord_steel: SteelName | None = Field(None, description=STEEL, examples=["S235"])
    brace: SectionName | None = Field(
        None, description="the tube or flat upon it; the frame's beam", examples=["SHS 80x80x4"]
    )
    brace_steel: SteelName | None = Field(None, description="that of the chord if not stated")
    side: Literal["b", "h"] = Field("b", description="the welded face is the one b or h wide")
    brace_along: Literal["h", "b"] = Field("h", description="side of the brace that lies along the chord")
    plate: Literal["along", "across"] | None = Field(None, description="how a flat lies on the chord")
    cross: bool | None = Field(None, description="an equal force stands on the opposite face")
    beyond: Position | None = Field(None, description="chord left beyond the brace at the nearer end")
    capped: bool = Field(False, description="that end is closed by a plate welded all round")
    throat: Length | None = Field(None, description="of the fillet all round, or on both sides of a flat")
    leg: Length | None = None
    inspected: bool = Field(False, description=INSPECTED)
    killed: bool = Field(False, description=KILLED)
    weldable: bool = Field(False, description=WELDABLE)
    welded_on: WeldedOn = Field("plain", description=ON)
    pull: Load | None = Field(None, description="of the brace, away from the face")
    push: Load | None = Field(None, description="of the brace, into the face")
    in_plane: Moment | None = Field(None, description="of the brace, in the plane of the joint, at rated load")
    chord_stress: AnyStress | None = Field(
        None, description="pressing along the welded face at rated load", examples=["0 MPa"]
    )


class ButtTable(Standing):
    """A butt weld along the edge of a plate, or both edges of a T."""

    length: Length
    thickness: Length = Field(description="of the plate")
    steel: SteelName = Field(description=STEEL, examples=["S235"])
    penetration: Annotated[list[Length] | None, lengths("6 6 mm")] = Field(
        None,
        min_length=1,
        max_length=2,
        description="depth from each welded side; full if left out",
        examples=['["6 mm", "6 mm"]'],
    )
    gap: Position | None = Field(None, description="left unwelded between two partial welds")
    run_off: bool = Field(False, description="ends of full size, on run-off plates")
    proven: bool = Field(False, description="trials show that the penetration is reached")
    inspected: bool = Field(False, description=INSPECTED)
    weldable: bool = Field(False, description=WELDABLE)
    welded_on: WeldedOn = Field("plain", description=ON)
    killed: bool = Field(False, description=KILLED)
    thickest: Length | None = Field(None, description="thicker part joined")
    along: Load | None = None
    across: Load | None = None


class PlateOnFlangeTable(Standing):
    """A plate welded square across an unstiffened flange, a fillet on both its sides."""

    base: SectionName | None = Field(
        None, description="I or H whose flange it stands on; the frame's beam", examples=["IPE 160"]
    )
    base_steel: SteelName | None = Field(None, description=STEEL, examples=["S235"])
    width: Length = Field(description="of the plate across the flange", examples=["80 mm"])
    thickness: Length = Field(description="of the plate", examples=["10 mm"])
    steel: SteelName = Field(description=STEEL, examples=["S235"])
    throat: Length | None = None
    leg: Length | None = None
    inspected: bool = Field(False, description=INSPECTED)
    weldable: bool = Field(False, description=WELDABLE)
    welded_on: WeldedOn = Field("plain", description=ON)
    pull: Load | None = None


class RunTable(Table):
    """One run of a weld group: from start to end, or round a centre."""

    start: Point
    end: Point | None = None
    centre: Point | None = None
    axis: Direction | None = Field(None, description="of the circle; z if not stated")
    angle: Angle | None = Field(None, description="round the centre; a full turn if not stated")
    kind: Literal["fillet", "partial butt", "full butt"] = "fillet"
    throat: Length | None = Field(None, description="of a fillet; penetration; thickness of the plate of a full butt")
    leg: Length | None = None
    leg_2: Length | None = Field(None, description="the other leg, where they differ")
    sides: Literal["both", "lap", "around", "one"] | None = Field(
        None, description="its partner is on the part's other side; a lap; round a tube; alone"
    )
    plate: Length | None = Field(None, description="thickness of the part, for a run alone")
    face: Direction | None = Field(None, description="from the root along leg, or along the plate of a butt weld")
    face_2: Direction | None = Field(None, description="from the root along the other leg")
    returned: bool = False
    proven: bool = False
    stretches: int | None = Field(None, ge=1, le=200, description="an intermittent run: its stretches, one at each end")
    stretch: Length | None = Field(None, description="length of each stretch")
    end_stretch: Length | None = Field(None, description="length of the first and last stretch, where they are longer")


class WeldGroupTable(Standing):
    """Runs of any shape that join one stiff part to another.

    At a corner of the frame x runs from the upright towards the middle of the beam, y across the frame, z up, from the
    beam's centre-line at the upright's face (joint "end plate") or centre-line ("lap"); right mirrors left.
    """

    joint: Literal["lap", "end plate"] = Field("lap", description="where the axes begin in the frame")
    runs: list[Annotated[RunTable, run_of_weld(RunTable.model_fields)]] = Field(
        min_length=1,
        max_length=60,
        examples=['[{ start = ["0 mm", "0 mm", "0 mm"], end = ["0 mm", "0 mm", "80 mm"], throat = "4 mm" }]'],
    )
    steel: SteelName = Field(description=f"of the weaker part; {STEEL}", examples=["S235"])
    method: Literal["simplified", "directional"] = "simplified"
    inspected: bool = Field(False, description=INSPECTED)
    weldable: bool = Field(False, description=WELDABLE)
    welded_on: WeldedOn = Field("plain", description=ON)
    killed: bool = Field(False, description=KILLED)
    thickest: Length | None = Field(None, description="thicker part joined")
    thickness: Length | None = Field(None, description="thinner part joined; wanted where a run is intermittent")
    width: Length | None = Field(None, description="of one part an intermittent run joins")
    other_width: Length | None = Field(None, description="of the other part")
    dry: bool = Field(False, description="intermittent runs stand neither in the weather nor in the wet")
    pulled: bool = Field(False, description="the parts are pulled along an intermittent run; else pressed or sheared")
    gusset: bool = Field(False, description=GUSSET)
    force: Load | None = None
    direction: Direction = Field([0.0, 0.0, -1.0], description="of the force")
    through: Point | None = Field(None, description="a point on the force's line; the origin if not stated")
    moment: Moments | None = Field(None, description="about x, y and z, at rated load")


class CrossPlateTable(Part):
    """A plate under the jack, lying flat between the webs of two beams and welded to them."""

    at: PlaceNames | None = Field(
        None, description='"bed/load" or "head/load": it carries what presses there', examples=["bed/load"]
    )
    gap: Length = Field(description="clear between the webs", examples=["80 mm"])
    along: Length = Field(description="size of the plate along the beams", examples=["140 mm"])
    thickness: Length = Field(examples=["25 mm"])
    steel: SteelName = Field(description=STEEL, examples=["S235"])
    throat: Length = Field(description="of the fillets along its ends", examples=["5 mm"])
    wall: Length = Field(description="thickness of a web", examples=["7 mm"])
    wall_depth: Length = Field(description="clear depth of a web between its flanges", examples=["100 mm"])
    wall_steel: SteelName | None = Field(None, description="of the beams; that of the plate if not stated")
    both: bool = Field(False, description="a run above and one below at each end")
    inspected: bool = Field(False, description=INSPECTED)
    height: Position | None = Field(None, description="of the plate from the nearer flange of the beams")
    to_centre: Position | None = Field(None, description="from the web's inner face to the beam's shear centre")
    pad: Position = Field(0.0, validate_default=False, description="what presses, between the beams; 0 is safe")
    load: Load | None = None


class ContactTable(Standing):
    """A round pin or roller on a flat, or in the hollow of a hole."""

    diameter: Length = Field(description="of the pin or roller", examples=["25 mm"])
    length: Length = Field(description="of the contact, all places together", examples=["20 mm"])
    steel: SteelName = Field(description=STEEL, examples=["S355"])
    seat_steel: SteelName | None = Field(None, description="of what it presses on; that of the pin if not stated")
    seat_thickness: Length | None = Field(None, description="of that part, for its strength")
    hollow: Length | None = Field(None, description="diameter of the hole it lies in; a flat if not stated")
    force: Load | None = None


class BasePlateTable(Standing):
    """A plate under a member's foot, pressed on concrete or on steel; the member stands on its middle."""

    section: SectionName | None = Field(
        None,
        description="of the member on it, an I, an H, a channel, a tube or a bar; the frame's at its feet",
        examples=["HEA 140"],
    )
    section_steel: SteelName | None = Field(None, description="of that member; the frame's, else the plate's")
    pieces: int = Field(1, ge=1, le=20, description="such members side by side; the frame's at its feet")
    apart: Position | None = Field(None, description="clear distance between them; the frame's at its feet")
    length: Length = Field(description="of the plate along the member's depth", examples=["240 mm"])
    width: Length = Field(description="of the plate across the member's depth", examples=["240 mm"])
    thickness: Length = Field(examples=["20 mm"])
    throat: Length | None = Field(
        None, description="of the fillets along every wall of the member, on both sides of it"
    )
    leg: Length | None = None
    inspected: bool = Field(False, description=INSPECTED)
    weldable: bool = Field(False, description=WELDABLE)
    steel: SteelName = Field(description=STEEL, examples=["S235"])
    killed: bool = Field(False, description=KILLED)
    concrete: AnyStress | None = Field(
        None, description="cylinder strength f_ck of the concrete it stands on", examples=["20 MPa"]
    )
    bed_steel: SteelName | None = Field(None, description="of what it stands on, in place of concrete")
    concentration: float = Field(1.0, description="sqrt(A_c1 / A_c0) of EN 1992-1-1 6.7, from 1 to 3")
    push: Load | None = Field(None, description="down on the plate")
    pull: Load | None = Field(None, description="off the plate")
    moment: Moment | None = Field(None, description="in the plane of the member's depth, at rated load")
    moment_across: Moment | None = Field(None, description="across it, at rated load")
    shear: Load | None = Field(None, description="along the plate")


class JointTables(Table):
    """The tables of a press file that describe these joints."""

    end_plate: list[EndPlateTable] = Field(default_factory=list)
    rod: list[RodTable] = Field(default_factory=list)
    tube_joint: list[TubeJointTable] = Field(default_factory=list)
    butt: list[ButtTable] = Field(default_factory=list)
    plate_on_flange: list[PlateOnFlangeTable] = Field(default_factory=list)
    weld_group: list[WeldGroupTable] = Field(default_factory=list)
    cross_plate: list[CrossPlateTable] = Field(default_factory=list)
    contact: list[ContactTable] = Field(default_factory=list)
    base_plate: list[BasePlateTable] = Field(default_factory=list)
