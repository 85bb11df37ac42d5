"""A plain text drawing of the frame as it was understood, so that a slip of the pen is seen."""

from collections.abc import Sequence

from structcheck.press.frame.understood import Part, Ring


def draw(ring: Ring, also: Sequence[str] = ()) -> str:
    """The ring with its measures in mm, not to scale; `also` stands below it."""
    wide = 36
    bar = "=" * wide
    side = f"||{' ' * (wide - 4)}||"

    def inside(text: str) -> str:
        return f"||{text.center(wide - 4)}||"

    rows = [
        f"{bar}  head     {_named(ring.head)}",
        side,
        inside(f"opening {ring.opening:g} mm"),
        f"{inside('')}  uprights {_named(ring.upright)}",
        inside(f"height {ring.height:g} mm"),
        side,
        f"{bar}  bed      {_named(ring.bed)}" + (" on pins" if ring.pinned_bed else ""),
    ]
    if ring.legs:
        rows += [side, f"||{f'legs {ring.legs:g} mm'.center(wide - 4)}||"]
    rows.append(f"|<{f' span {ring.span:g} mm '.center(wide - 4, '-')}>|")
    if ring.planes > 1:
        rows.append(f"{ring.planes} such frames, {ring.spacing:g} mm apart")
    return "\n".join([*rows, *also])


def _named(part: Part) -> str:
    pieces = f"{part.pieces} x " if part.pieces > 1 else ""
    how = ", turned" if part.turned else ""
    return f"{pieces}{part.section.designation}{how}, {part.depth:.4g} mm deep"
