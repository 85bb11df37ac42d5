"""What stands one on the other in the opening: the parts that are described take height, whatever `packing` says."""

from structcheck.findings import Assumption, Outcome
from structcheck.press.frame.keeping import no_packers
from structcheck.press.schema import PressFile
from structcheck.record import record

ROUNDING = 0.5
"""mm; a stated height is a measured one."""


@record
class Row:
    """A part in the line of the force: what it is, its thickness in mm, and whether it goes with the ram."""

    what: str
    height: float
    rides: bool = False


def in_the_way(press: PressFile) -> tuple[Row, ...]:
    """Every described part between the two beams that the force goes through, the jack and the work aside."""
    rows = [Row(table.name, table.thickness, table.moves is not False) for table in press.platen]
    for name in ("head", "bed"):
        plate = getattr(getattr(press, name), "spreader", None)
        if plate is not None:
            rows.append(Row(f"spreader on the {name}", plate.thickness))
    return tuple(rows)


def height_of(rows: tuple[Row, ...]) -> float:
    """All of them together, mm."""
    return sum(row.height for row in rows)


def text_of(rows: tuple[Row, ...]) -> str:
    """The sum in words."""
    terms = " + ".join(f"{row.what} {row.height:g}" for row in rows)
    return f"{terms} mm" if len(rows) == 1 else f"{terms} = {height_of(rows):g} mm"


def packing_of(press: PressFile) -> tuple[float, float, Outcome]:
    """(packing by which the stroke is judged, that by which the opening is, what was counted), mm.

    Stated below what is described, the opening goes by the more and the stroke by the less: nobody says which is right.
    """
    rows, stated = in_the_way(press), press.jack.packing
    described = height_of(rows)
    if stated is None:
        if rows:
            text = f"packing not stated: {text_of(rows)} of the parts described is counted, no boards and no tooling"
        else:
            text = "packing not stated and no platen or spreader is described: none is counted"
        return described, described, Outcome(assumptions=(Assumption("jack", text),))
    if described <= stated + ROUNDING:
        texts = (f"jack: packing {stated:g} mm holds {text_of(rows)}",) if rows else ()
        return stated, stated, Outcome(assumptions=_unpacked(press, rows, stated), answers=texts)
    condition = f"packing {stated:g} mm is all that stands between jack and head, though {text_of(rows)} is described"
    text = f"{condition}: the opening is judged by the more, the stroke by the less"
    return stated, described, Outcome(assumptions=(Assumption("jack", text, condition),))


def _unpacked(press: PressFile, rows: tuple[Row, ...], stated: float) -> tuple[Assumption, ...]:
    """Height that no part described has, where the builder says that nothing loose is packed in."""
    more = stated - height_of(rows)
    if more <= ROUNDING or not no_packers(press):
        return ()
    held = text_of(rows) if rows else "none of it"
    text = f"packing {stated:g} mm holds {held} of parts described; the rest is tooling, kept, and no loose packer"
    return (Assumption("jack", f"{text} ([retention] packers says what keeps it)", text),)


def spring_room(press: PressFile, clear: float) -> tuple[float, str]:
    """(what is left for springs between platen and the beam across at the open press, how it comes about), mm.

    Where the jack's closed height is not stated it is the whole clear height.
    """
    if press.jack.closed is None:
        return clear, f"of the clear height of {clear:g} mm"
    across = "head" if press.frame is None or press.frame.jack_on == "bed" else "bed"
    rows = tuple(row for row in in_the_way(press) if row.rides or row.what.startswith("spreader"))
    rows = tuple(row for row in rows if row.what != f"spreader on the {across}")
    left = clear - press.jack.closed - press.jack.screw - height_of(rows)
    return left, f"of the {left:g} mm between the platen and the {across} when the ram is in"
