"""The press file, schema 1: every key, its type, its default and what it means.

Strings carry a unit; plain numbers are counts, factors and ratios. In a load key a plain number is a share of the
jack's force and a text is a force of the user's.
"""

from typing import Annotated, Literal

from pydantic import Field

from structcheck.press.fields import (
    FLAT_SIZE,
    PLATE_SIZE,
    AnyLength,
    Force,
    Length,
    Limit,
    Load,
    Moment,
    Part,
    Position,
    Relief,
    Table,
)
from structcheck.press.frame_schema import (
    FrameBeam,
    FrameTables,
    MemberTable,
    Pulled,
    SpreaderTable,
    StiffenersTable,
    Uprights,
)
from structcheck.press.joint_schema import GUSSET, JointTables, WeldedOn
from structcheck.press.listed import places
from structcheck.press.mechanism_schema import JackPlace, MechanismTables
from structcheck.press.names import ClassName, PlaceNames, SectionName, SizeName, SteelName
from structcheck.press.section_schema import SectionTable


class Jack(JackPlace):
    """The jack: its rating, and what limits the force it can give."""

    rating: Force = Field(description="rated force, or the mass it is rated to lift; one jack")
    count: int = Field(1, ge=1, le=8, description="jacks pushing together")
    drive: Literal["hand", "air", "power"] = Field("hand", description="what works the jack")
    relief: Relief | None = Field(None, description="force or pressure at which the valve opens; a pressure needs bore")
    bore: Length | None = Field(None, description="piston diameter")
    stroke: Length | None = Field(None, description="travel of the ram")
    base: Length | None = Field(None, description="side or diameter of the foot")
    saddle: Length | None = Field(None, description="diameter of the saddle on the ram")
    offset: Position | None = Field(None, description="how far off centre the load may stand, in the frame's plane")
    offset_across: Position | None = Field(None, description="the same across the frame's plane")


class BasisTable(Table):
    """Factors; every one is printed."""

    load_factor: float = Field(1.5, ge=1.0, le=5.0, description="EN 1990 gamma_Q")
    proof_factor: float = Field(1.25, ge=1.0, le=2.0, description="proof load over rated load")
    gamma_M0: float = Field(1.0, ge=1.0, le=2.0, description="resistance of cross-sections")
    gamma_M1: float = Field(1.0, ge=1.0, le=2.0, description="resistance of members to instability")
    gamma_M2: float = Field(1.25, ge=1.0, le=2.0, description="resistance of bolts, welds, net sections")
    gamma_Mf: float = Field(1.35, ge=1.0, le=2.0, description="fatigue resistance")
    eta: float = Field(1.0, ge=1.0, le=1.2, description="EN 1993-1-5 5.1; 1.0 is always safe")
    strengths: Literal["product standard", "EN 1993-1-1"] = Field("product standard", description="whose f_y and f_u")


class Use(Table):
    """How often the press works, for fatigue, and how cold it gets."""

    presses_per_day: float = Field(20.0, gt=0, le=1e6)
    days: float = Field(250.0, gt=0, le=366)
    years: float = Field(10.0, gt=0, le=200)
    static: bool = Field(False, description="the user states that fatigue is not to be judged")
    lowest_temperature: float = Field(0.0, ge=-60, le=60, description="degC")


class Limits(Table):
    """Limits of the user's; they give a verdict."""

    deflection: Limit | None = None
    opening: Length | None = None
    flatness: Length | None = None


class QuestionTable(Table):
    """What a single question may set beside its part: the factor, partial factors, use, a limit."""

    factor: float = Field(1.5, ge=1.0, le=5.0, description="load factor of strength checks; 1 for design forces")
    gamma_M0: float = Field(1.0, ge=1.0, le=2.0)
    gamma_M1: float = Field(1.0, ge=1.0, le=2.0)
    gamma_M2: float = Field(1.25, ge=1.0, le=2.0)
    gamma_Mf: float = Field(1.35, ge=1.0, le=2.0)
    eta: float = Field(1.0, ge=1.0, le=1.2)
    strengths: Literal["product standard", "EN 1993-1-1"] = "product standard"
    presses_per_day: float = Field(20.0, gt=0, le=1e6)
    days: float = Field(250.0, gt=0, le=366)
    years: float = Field(10.0, gt=0, le=200)
    static: bool = False
    lowest_temperature: float = Field(0.0, ge=-60, le=60)
    limit: Limit | None = Field(None, description="limit of deflection")
    flatness: Length | None = Field(None, description="how far from flat a platen may bend")


class BeamLoadTable(Table):
    """One load on a beam."""

    load: Load
    at: Position | None = Field(
        None, description="distance of its middle from the left support; the middle if not stated"
    )
    over: Position = Field(0.0, description="length it is spread over", validate_default=False)


class Entered(Table):
    """How a force enters a member."""

    pad: Length | None = Field(None, description="what presses on it: length along the beam, or diameter")
    pad_across: Length | None = Field(None, description="its width across the beam; round if not stated")
    apart: Position | None = Field(None, description="clear distance between the pieces")
    facing: Literal["back to back", "toe to toe"] = Field("back to back", description="how two channels stand")
    spreader: Annotated[SpreaderTable | None, PLATE_SIZE] = Field(
        None, description="plate under the pad: along x across x thickness", examples=["120 x 120 x 20 mm"]
    )
    stiffeners: Annotated[StiffenersTable | None, FLAT_SIZE] = Field(
        None, description="pair of flats on each web under the load: width x thickness", examples=["35 x 8 mm"]
    )


class Pressed(Entered):
    """How forces enter a beam, and what else its checks ask."""

    bearing: Position | None = Field(None, description="length of contact at each support; 0 on a round pin")
    beyond: Position | None = Field(None, description="beam beyond the contact at a support")
    held_by: Literal["flange", "web"] = Field("flange", description="sits on its flange, or hangs by its web or ends")
    end_stiffeners: bool = Field(False, description="web stiffened over its depth at each support, and free end")
    tied: bool | None = Field(None, description="pieces tied together at the load and at each support")
    quality: Literal["JR", "J0", "J2", "K2"] | None = Field(None, description="toughness letters of the steel")
    detail: str | None = Field(None, description="fatigue detail at the most stressed place", max_length=80)
    corrosion: Position = Field(0.0, validate_default=False, description="metal lost from every face")


class HeadOrBed(FrameBeam, Pressed):
    """The head or the bed of a described frame."""


class FrameUprights(Uprights):
    """The uprights of a described frame; left and right are alike."""


class FrameBar(MemberTable, Entered):
    """A member of a frame of nodes and members."""

    tied: bool | None = Field(None, description="pieces tied together at the load and at both ends")


class BeamTable(Part, Pressed):
    """A beam of one span."""

    section: SectionName = Field(description="a section, as the yard names it", examples=["SHS 100x100x5"])
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S275"])
    pieces: int = Field(1, ge=1, le=20, description="pieces side by side that share the load equally")
    span: Length = Field(description="between the supports")
    turned: bool = Field(False, description="it lies on its side: bent about its weak axis")
    supports: Literal["simple", "fixed", "propped", "cantilever"] = "simple"
    load: Load | None = None
    at: Position | None = None
    over: Position = Field(0.0, validate_default=False)
    loads: list[BeamLoadTable] | None = None
    load_height: AnyLength | None = Field(None, description="how far the load enters before the shear centre")
    held_at: list[Position] = Field(default_factory=list, description="places held sideways and against twisting")
    lateral_method: Literal["general", "rolled"] = Field("general", description="EN 1993-1-1 6.3.2.2 or 6.3.2.3")
    hole: Length | None = Field(None, description="diameter of holes in the tension flange")
    holes: int = Field(1, ge=1, le=8, description="holes beside one another")
    hole_offset: Position | None = Field(None, description="of the holes from mid-depth")


class UprightTable(Pulled, Part):
    """An upright, pulled by the press."""

    section: SectionName = Field(description="a section, as the yard names it", examples=["FL 80x10"])
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S235"])
    pieces: int = Field(1, ge=1, le=20)
    length: Length
    pull: Load | None = None
    push: Load | None = Field(None, description="the other way: what presses it together")
    moment: Moment | None = Field(None, description="about its strong axis")
    moment_across: Moment | None = Field(None, description="about its weak axis")
    buckling_length: Length | None = Field(None, description="about the strong axis; its length if not stated")
    buckling_length_across: Length | None = Field(None, description="about the weak axis; its length if not stated")


class Placed(Part):
    """A joint; in a described frame it stands at a place and takes its forces from there."""

    at: PlaceNames | None = Field(
        None, description="places in the described frame", examples=["head/left", "bed/right"]
    )
    joint: Literal["lap", "end plate"] = Field(
        "lap", description="it joins faces that lie in the frame's plane, or an end plate across the beam"
    )


class BoltsTable(Placed):
    """A group of bolts in rows and columns or at places of its own; the force acts along the columns."""

    size: SizeName = Field(description="thread size", examples=["M16"])
    bolt_class: ClassName = Field(alias="class", description="property class, or unknown", examples=["8.8"])
    rows: int | None = Field(None, ge=1, le=50, description="bolts along the force")
    columns: int | None = Field(None, ge=1, le=50, description="bolts across the force")
    layout: Annotated[
        list[Annotated[tuple[AnyLength, AnyLength], Field(strict=False)]] | None, places("-40 0; 40 0 mm")
    ] = Field(
        None,
        description="x and y of every bolt, in place of rows and columns",
        examples=[[["-40 mm", "0 mm"], ["40 mm", "0 mm"]]],
    )
    pitch: Length | None = Field(None, description="between rows, p_1")
    gauge: Length | None = Field(None, description="between columns, p_2")
    end: Length | None = Field(None, description="end distance e_1 from the row nearest the loaded end")
    edge: Length | None = Field(None, description="edge distance e_2, the same on both sides unless far_edge")
    plate: Length = Field(
        description="thickness a bolt pushes one way: of one plate, of two flats together, of both walls of a tube"
    )
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S275"])
    hole: Length | None = Field(None, description="hole diameter; by EN 1090-2 if not stated")
    thread: Literal["in", "out"] = Field("in", description="thread in or out of the shear plane")
    planes: int = Field(1, ge=1, le=4, description="shear planes of each bolt: 2 where it holds a plate between two")
    shear: Load | None = Field(None, description="along y, towards the loaded end")
    eccentricity: AnyLength = Field(
        0.0, validate_default=False, description="of shear and tension from the group's centre, along x"
    )
    tension: Load | None = Field(None, description="along the bolts")
    across: Load | None = Field(None, description="along x, through the group's centre")
    twist: Moment | None = Field(None, description="in the plane of the plates, at rated load")
    bend_x: Moment | None = Field(None, description="out of the plane, pulling on the bolts towards +x")
    bend_y: Moment | None = Field(None, description="out of the plane, pulling on the bolts towards the loaded end")
    far_end: Length | None = Field(None, description="end distance behind the group")
    far_edge: Length | None = Field(None, description="edge distance on the -x side, where it differs")
    ply: Length | None = Field(None, description="thinnest single plate or wall, where `plate` is a sum")
    packing: Position = Field(0.0, validate_default=False, description="thickness of packing plates")
    single_lap: bool | None = Field(None, description="one plate on one plate, bolts in one row")
    countersunk: bool = Field(False, description="countersunk heads; say their depth by sink")
    sink: Position = Field(0.0, validate_default=False, description="depth of the countersink in the plate")
    slot: Literal["short across", "long across", "short along", "long along"] | None = Field(
        None, description="slotted holes, and how they lie to the force"
    )
    slot_length: Length | None = Field(None, description="of a slot over all; the longest of its kind if not stated")
    backing: Length | None = Field(None, description="backing plate under the heads")
    plate_runs: Literal["along", "across"] | None = Field(None, description="which way the plate runs from the group")
    gusset: bool = Field(False, description="at a corner: the plate is a piece of its own, neither beam nor upright")
    exposed: bool | None = Field(None, description="out in the weather, unpainted")
    spread: Literal["elastic", "plastic"] = Field("elastic", description="how the plates share the force (3.12)")
    steady: bool = Field(False, description="no impact, vibration or reversal: pressing, not breaking or punching")
    category: Literal["A", "B", "C", "E"] = Field(
        "A", description="Table 3.2: bears, grips in service, grips up to failure, pulled and preloaded"
    )
    mu: float | None = Field(None, gt=0, le=1, description="slip factor; 0.2 if not stated")
    lever: Length | None = Field(None, description="bolt to the face of the web or weld that pulls, for prying")
    grip: Length | None = Field(None, description="plates and washers between head and nut")
    length: Length | None = Field(None, description="of the bolt under its head")
    inner: Length | None = Field(None, description="bolt through a tube: plate in the middle")
    gap: Position | None = Field(None, description="bolt through a tube: open gap on each side of that plate")
    hollow: Length | None = Field(None, description="tube in the middle, walls `inner` together: clear width inside")
    sleeve: bool = Field(False, description="at a corner: a sleeve or packing fills every tube the bolts go through")


class WeldTable(Placed):
    """Equal parallel fillet runs that share a force."""

    throat: Length | None = None
    leg: Length | None = None
    leg_2: Length | None = Field(None, description="the other leg, where they are unequal")
    length: Length
    runs: int = Field(1, ge=1, le=50)
    returned: bool = Field(False, description="ends returned at full size")
    inspected: bool = Field(False, description="tested by somebody competent")
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S235"])
    along: Load | None = None
    across: Load | None = None
    eccentricity: AnyLength = Field(0.0, validate_default=False)
    method: Literal["simplified", "directional"] = "simplified"
    plane: Literal["out", "in"] | None = Field(None, description="which way the eccentricity bends the runs")
    spacing: Length | None = Field(None, description="between two runs")
    around: bool = Field(False, description="one run all round a hollow section")
    one_sided: bool = Field(False, description="each plate is welded on one side only")
    weldable: bool = Field(False, description="the user states that an unknown steel can be welded")
    welded_on: WeldedOn = Field("plain", description="what the parts are where they are welded")
    killed: bool = Field(False, description="the steel of a cold-formed tube is killed: its corners may be welded")
    thickness: Length | None = Field(None, description="thinner part joined")
    thickest: Length | None = Field(None, description="thicker part joined")
    stretches: int | None = Field(None, ge=1, le=200, description="an intermittent run: its stretches, one at each end")
    stretch: Length | None = Field(None, description="length of each stretch")
    end_stretch: Length | None = Field(None, description="length of the first and last stretch, where they are longer")
    staggered: bool = Field(False, description="stretches of one side stand midway between those of the other")
    dry: bool = Field(False, description="neither in the weather nor in the wet")
    pulled: bool = Field(False, description="the parts are pulled along an intermittent run; else pressed or sheared")
    width: Length | None = Field(None, description="of one part an intermittent run joins")
    other_width: Length | None = Field(None, description="of the other part")
    gusset: bool = Field(False, description=GUSSET)


class PinTable(Placed):
    """A pin in double shear."""

    diameter: Length
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S355"])
    hole: Length | None = None
    inner: Length = Field(description="thickness of the middle part")
    outer: Length = Field(description="thickness of each outer part")
    gap: Position | None = Field(None, description="between middle and outer part, each side")
    replaceable: bool = True
    inner_doubler: Position = Field(0.0, validate_default=False, description="plate welded round the hole, middle part")
    outer_doubler: Position = Field(0.0, validate_default=False, description="the same on each outer part")
    slot: Position = Field(0.0, validate_default=False, description="how far the hole is drawn out along the force")
    inner_steel: SteelName | None = Field(None, description="steel of the middle part; that of the pin if not stated")
    outer_steel: SteelName | None = Field(None, description="steel of the outer parts")
    inner_end: Length | None = Field(None, description="centre of the hole to the end of the middle part")
    inner_edge: Length | None = Field(None, description="centre of the hole to the side of the middle part")
    outer_end: Length | None = Field(None, description="centre of the hole to the end of the outer parts")
    outer_edge: Length | None = Field(None, description="centre of the hole to the side of the outer parts")
    pull: Load | None = None


class PlatenTable(Part):
    """The platen: a plate on bearers, or on a frame along its edges."""

    length: Length
    width: Length
    thickness: Length
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S235"])
    bearers: Length | None = Field(None, description="between two bearers across the length; none: a frame all round")
    load: Load | None = None
    along: Length | None = Field(None, description="length of the patch the force presses; the whole if not stated")
    across: Length | None = Field(None, description="width of the patch; the whole if not stated")
    shape: Literal["rectangle", "round"] = Field("rectangle", description="shape of the patch")
    pushed: Length | None = Field(None, description="diameter of the saddle that pushes on the other face")
    moves: bool | None = Field(None, description="springs bring it back; counted as moving if not stated")


class FlangeTable(Part):
    """Flanges of a beam pressed or pulled between web and tip: a foot, a clamp or a hanger beside the web."""

    section: SectionName = Field(description="of the beam", examples=["IPE 160"])
    steel: SteelName = Field(description="a steel grade, or unknown", examples=["S235"])
    pieces: int = Field(1, ge=1, le=20, description="beams side by side")
    lever: Length = Field(description="from the face of the web to the middle of the contact", examples=["25 mm"])
    along: Position = Field(0.0, validate_default=False, description="contact along the beam; a point if not stated")
    sides: int = Field(2, ge=1, le=40, description="flange halves, of all pieces, that share the force")
    to_end: Position | None = Field(None, description="from the contact to the end of the beam; far if not stated")
    force: Load | None = None
    moment: Moment | None = Field(None, description="in the beam alongside, of all pieces, at rated force")


class PressFile(FrameTables, MechanismTables, JointTables):
    """A press."""

    schema_: Literal[1] = Field(alias="schema", description="version of this layout")
    title: str = Field("Press", max_length=120)
    jack: Jack
    basis: BasisTable = BasisTable()
    use: Use = Use()
    limits: Limits = Limits()
    head: HeadOrBed | None = None
    bed: HeadOrBed | None = None
    uprights: FrameUprights | None = None
    member: list[FrameBar] = Field(default_factory=list)
    section: list[SectionTable] = Field(default_factory=list)
    platen: list[PlatenTable] = Field(default_factory=list)
    beam: list[BeamTable] = Field(default_factory=list)
    upright: list[UprightTable] = Field(default_factory=list)
    flange: list[FlangeTable] = Field(default_factory=list)
    bolts: list[BoltsTable] = Field(default_factory=list)
    weld: list[WeldTable] = Field(default_factory=list)
    pin: list[PinTable] = Field(default_factory=list)
