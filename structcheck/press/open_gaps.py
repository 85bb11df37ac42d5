"""What stands open between the plates that bolts or a pin go through at a corner, by the members' own measures."""

from collections.abc import Sequence
from itertools import pairwise

from structcheck.checks.member_forms import form
from structcheck.findings import Assumption, Outcome
from structcheck.press.frame.demands import FrameAnswer
from structcheck.press.frame.words import FramePart
from structcheck.press.meetings import is_turned, upright_at

SNUG = 1.0
"""mm in all that bolts draw together; ours."""

Span = tuple[float, float]
"""From where to where across the frame, mm from its plane."""


def filled(name: str, places: Sequence[str], answer: FrameAnswer, stated: float) -> Outcome:
    """A condition where more stands open than is stated: what spans it bends.

    stated  open in all, mm: gaps on both sides, and what packing plates fill
    """
    widest = max((_open(place, answer) for place in places), default=0.0)
    if widest <= stated + SNUG:
        return Outcome()
    known = f", of which {stated:.4g} mm are stated" if stated else ""
    condition = f"plates or sleeves fill the {widest:.4g} mm that stand open between what {name} go through{known}"
    return Outcome(assumptions=(Assumption(name, condition, condition),))


def _open(place: str, answer: FrameAnswer) -> float:
    """Open in all between the walls of beam and upright there, mm; nothing where their measures do not tell.

    A tube counts as full: what spans its inside is judged by itself.
    """
    pair = [answer.members.get(name) for name in (place.split("/")[0], upright_at(place))]
    beam, upright = pair
    if beam is None or upright is None:
        return 0.0
    walls = [_walls(beam, upright), _walls(upright, beam)]
    if None in walls:
        return 0.0
    row = sorted(span for found in walls if found is not None for span in found)
    steps = [after[0] - before[1] for before, after in pairwise(row)]
    return 0.0 if min(steps, default=0.0) < -SNUG else sum(steps)


def _walls(part: FramePart, other: FramePart) -> list[Span] | None:
    """Where the walls of a member stand that a bolt through its middle goes through; None where nobody says."""
    left, right, low, high = part.section.edges
    width = high - low if is_turned(part) else right - left
    wall = _wall(part, width)
    if wall is None or part.pieces > 2:
        return None
    if part.pieces == 1:
        middle = -sum(wall) / 2 if form(part.section) == "channel" else -width / 2
        return [(wall[0] + middle, wall[1] + middle)]
    apart = part.table.apart
    if apart is None:
        # Laid face on face where there is room for them between the pieces of the other member.
        if other.pieces != 2 or other.table.apart is None or other.table.apart < 2 * width:
            return None
        apart = 0.0
    start, end = (apart / 2 + x for x in wall)
    return [(-end, -start), (start, end)]


def _wall(part: FramePart, width: float) -> Span | None:
    """From where to where a bolt is in the steel of one piece, from the side that faces the other piece."""
    kind = form(part.section)
    if kind in ("rectangle", "hollow"):
        return 0.0, width
    if is_turned(part) or kind not in ("i", "channel"):
        return None
    web = float(part.section.shape.tw)
    if kind == "i":
        return (width - web) / 2, (width + web) / 2
    facing = getattr(part.table, "facing", "back to back")
    return (width - web, width) if facing == "toe to toe" else (0.0, web)
