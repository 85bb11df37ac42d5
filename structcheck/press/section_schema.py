"""The press file's `[[section]]`: a section of the builder's own, welded from plates or made of two pieces.

Any `section = "..."` of the file can name it.
"""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo

from structcheck.errors import Problem, QuantityError
from structcheck.press.fields import AnyLength, Length, Position, Table, spell


def _four(given: Any, info: ValidationInfo) -> Any:
    if isinstance(given, list) and all(isinstance(row, list) and len(row) == 4 for row in given):
        return given
    key = spell(info.field_name or "", info)
    wanted = "rows of four lengths: left, right, bottom, top"
    remedy = f'{key} = [["-50 mm", "50 mm", "0 mm", "10 mm"], ...]'
    raise QuantityError(Problem(key, "", "holds something that is no rectangle", wanted, remedy))


Rectangles = Annotated[list[list[AnyLength]], BeforeValidator(_four)]

SHAPES = Literal["welded i", "box", "channel", "t", "rib with plate", "flat", "rectangles", "pair", "library"]


class SlotTable(Table):
    """A slot from one edge of a flat rib."""

    depth: Length = Field(examples=["60 mm"])
    width: Length = Field(description="along the rib", examples=["13 mm"])
    weld: Literal["none", "fillets", "butt"] = Field(
        "none", description="what joins its sides to the rib that passes through: four fillets, or full penetration"
    )
    throat: Length | None = Field(None, description="of each of the fillets")
    length: Length | None = Field(None, description="of the weld from the slot's open end; all its depth if not stated")
    returned: bool = Field(False, description="the weld's ends are full size")
    inspected: bool = Field(False, description="tested by somebody competent")


class SectionTable(Table):
    """A section of the builder's own; sizes as its shape asks."""

    name: str = Field(min_length=1, max_length=60, description="what other tables call it", examples=["box head"])
    shape: SHAPES = Field(description="how it is made", examples=["box"])
    h: Length | None = Field(None, description="depth over all")
    b: Length | None = Field(None, description="width of the flanges; of a box over its webs")
    tw: Length | None = Field(None, description="thickness of web or stem")
    tf: Length | None = Field(None, description="thickness of the flanges")
    b_bottom: Length | None = Field(None, description="welded i: the lower flange, where it differs")
    tf_bottom: Length | None = None
    overhang: Position | None = Field(None, description="box: flange beyond the web's outer face, each side")
    closed: bool = Field(False, description="box or pair toe to toe: every seam welded along its whole length")
    t: Length | None = Field(None, description="thickness of a rib or flat")
    rib: Length | None = Field(None, description="depth of a rib under a plate")
    plate: Length | None = Field(None, description="thickness of that plate")
    width: Length | None = Field(None, description="of the plate that works with the rib")
    rectangles: Rectangles | None = Field(None, description="left, right, bottom, top of each plate")
    section: str | None = Field(None, max_length=60, description="pair, library: the piece", examples=["UPN 120"])
    gap: Position | None = Field(None, description="pair: clear distance")
    facing: Literal["back to back", "toe to toe"] = "back to back"
    holes: Rectangles | None = Field(None, description="left, right, bottom, top of each, from the centroid")
    slot: SlotTable | None = Field(None, description="flat: a half-lap slot; the whole length counts as cut or welded")
    throat: Length | None = Field(None, description="of the fillets between the plates")
    runs: int = Field(1, ge=1, le=2, description="fillets at each seam: one, or one on both sides")
    stretch: Length | None = Field(None, description="intermittent seams: length of each stretch of weld")
    stretch_gap: Length | None = Field(None, description="clear between two stretches")
    end_stretch: Length | None = Field(None, description="length of the weld at each end of the member, if longer")
    fitted: bool = Field(False, description="plates fitted to bear on each other where a force is pressed through them")
    dry: bool = Field(False, description="intermittent seams stand neither in the weather nor in the wet")
    inspected: bool = Field(False, description="tested by somebody competent")
    weldable: bool = Field(False, description="the user states that an unknown steel can be welded")
    tied: bool = Field(False, description="pair: tied by battens or welds along its length, so that both act as one")
