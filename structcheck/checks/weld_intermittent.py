"""Intermittent fillets (EN 1993-1-8 4.3.2.2): where their stretches lie, and how far apart they may."""

import math
from collections.abc import Iterator

from structcheck.errors import Problem
from structcheck.findings import Finding, judged, not_checked, worst
from structcheck.record import record
from structcheck.standards.en1993_1_8 import welds

SOURCE = "EN 1993-1-8:2005 4.3.2.2 (figure 4.1 recalled, not read)"


@record
class Stretches:
    """A run laid in stretches, one at each of its ends; mm.

    length  of the whole run, from the start of its first stretch to the end of its last
    count   stretches in it, 2 or more
    one     length of a stretch
    end     length of the first and of the last; None: as the others
    """

    length: float
    count: int
    one: float
    end: float | None = None

    @property
    def pieces(self) -> tuple[float, ...]:
        """Length of every stretch."""
        end = self.one if self.end is None else self.end
        return (end, *[self.one] * (self.count - 2), end)

    @property
    def gap(self) -> float:
        """Clear between neighbouring stretches."""
        return (self.length - sum(self.pieces)) / (self.count - 1)

    def places(self) -> Iterator[tuple[float, float]]:
        """Start and end of every stretch, from the start of the run."""
        at = 0.0
        for piece in self.pieces:
            yield at, at + piece
            at += piece + self.gap

    def effective(self, a: float) -> float:
        """Length of all stretches that counts: a throat less at each end of each."""
        return sum(max(welds.effective_length(piece, a), 0.0) for piece in self.pieces)

    def problems(self) -> Iterator[Problem]:
        """What cannot be laid so."""
        if self.count < 2:
            wanted = "2 or more, one at each end of the run"
            yield Problem("stretches", f"{self.count}", "is no intermittent run", wanted, "stretches = 4")
        elif not all(math.isfinite(piece) and piece > 0 for piece in self.pieces):
            yield Problem("stretch", f"{min(self.pieces):g} mm", "is not a length", "a length above 0 mm")
        elif self.gap <= 0:
            given, fault = f"{self.count} x {self.one:g} mm", f"leave no gaps in {self.length:g} mm of run"
            yield Problem("stretches", given, fault, "fewer or shorter stretches, or one whole run without `stretch`")


@record(kw_only=True)
class Intermittent:
    """What the stretches join; mm.

    gap                 clear, between stretches of one side or of both, where the two sides are staggered
    end_run             length of the first and last stretch
    thickness, other    of the two parts
    width, other_width  of the two parts
    pulled              the parts are pulled along the weld; else pressed, or the weld carries shear
    dry                 stated not to stand in the weather or the wet
    """

    name: str
    gap: float
    end_run: float
    thickness: float | None = None
    other: float | None = None
    width: float | None = None
    other_width: float | None = None
    pulled: bool = False
    dry: bool = False


def staggered_gap(one_side: float, stretch: float) -> float:
    """The gap that counts where the stretches of one side stand midway between those of the other (4.3.2.2(3))."""
    return max((one_side - stretch) / 2, 0.0)


def intermittent_size(part: Intermittent, keys: tuple[str, str] = ("thickness", "thickest")) -> Finding:
    """Gaps and end stretches of an intermittent fillet, the worse of the two, as "weld size".

    keys  how the one who asks calls the thicknesses of the two parts
    """
    known = {keys[0]: part.thickness, keys[1]: part.other, "width": part.width, "other_width": part.other_width}
    missing = [f"`{key}`" for key, value in known.items() if value is None]
    if not part.dry:
        why = "intermittent fillets may not stand in the wet (4.3.2.2(1)); where they do not, dry = true"
        return not_checked(part.name, "weld size", why)
    if missing:
        why = f"the gaps of an intermittent fillet go by the parts joined: {', '.join(missing)} not stated"
        return not_checked(part.name, "weld size", why)
    if part.pulled:
        most, how = welds.widest_gap_in_tension(part.thickness, part.other), "parts pulled along it"
    else:
        narrow = min(part.width, part.other_width)
        most = welds.widest_gap_in_compression(part.thickness, part.other, narrow)
        how = "parts pressed along it, or shear"
    least = welds.least_end_run(part.width, part.other_width)
    return worst(
        (
            judged(part.name, "weld size", "", part.gap, most, "mm", SOURCE, reason=f"gap, {how}"),
            judged(part.name, "weld size", "", least, part.end_run, "mm", SOURCE, reason="stretch at each end"),
        )
    )
