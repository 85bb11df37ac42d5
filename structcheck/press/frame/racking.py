"""What takes the couple of a load off centre, and what is left over."""

from collections.abc import Sequence

from structcheck.findings import Assumption, NotNeeded, Outcome, judged, not_checked
from structcheck.press.cases import Forces
from structcheck.press.frame.off_centre import Offsets, Position, reach_of_saddle
from structcheck.press.frame.states import Solved
from structcheck.press.frame_schema import FrameTables
from structcheck.press.schema import Jack

STATICS = "statics of the platen"


def racking(
    tables: FrameTables,
    jack: Jack,
    off: Offsets,
    forces: Forces,
    positions: Sequence[Position],
    states: Sequence[Solved],
) -> Outcome:
    """Whether something takes the couple of a load off centre: guides and corners, or the saddle alone."""
    e = max(off.plane, off.across)
    if e == 0.0:
        return Outcome(does_not_apply=(NotNeeded("frame", "racking", "no load off centre is allowed for"),))
    couple = forces.ultimate * e
    case, check, part = "off centre couple", "racking", "frame"
    guides = tables.guides
    if guides and guides.on == "ram" and jack.seat == "ball":
        reason = "the ram is to take the couple, which a ball seat does not hand to it"
        return Outcome((judged(part, check, case, couple, 0.0, "kN m", STATICS, reason=reason),))
    if guides and guides.on == "ram":
        reason = "the ram is built in and pushes off centre itself"
        return Outcome((judged(part, check, case, 0.0, couple, "kN m", STATICS, reason=reason),))
    reach = reach_of_saddle(jack)
    if guides is None and reach is None:
        reason = "what takes the couple is not known: neither [guides] nor the saddle's diameter is stated"
        return Outcome((not_checked(part, check, reason),))
    if guides is None:
        left = max(0.0, e - (reach or 0.0)) * forces.ultimate
        if left > 0:
            how = "its ball" if jack.seat == "ball" else "its radius"
            reason = f"no guides: of {couple / 1e6:.2f} kN m the saddle passes on what {how} allows, nothing the rest"
            return Outcome((judged(part, check, case, left, 0.0, "kN m", STATICS, reason=reason),))
        return Outcome((judged(part, check, case, 0.0, couple, "kN m", STATICS, reason="the saddle takes it"),))
    pushed = [number for number, position in enumerate(positions) if any(position.couple)]
    if not pushed:
        return Outcome((judged(part, check, case, 0.0, couple, "kN m", STATICS, reason="the saddle takes it"),))
    able = any(solved.carried[pushed].all() for solved in states)
    if not able:
        reason = "with every corner pinned nothing keeps the frame square"
        return Outcome((judged(part, check, case, couple, 0.0, "kN m", STATICS, reason=reason),))
    text = "the state with all corners loose is left out where a couple would rack the frame: bolts must be tight"
    partly = any(not solved.carried[pushed].all() for solved in states)
    return Outcome(
        (judged(part, check, case, 0.0, couple, "kN m", STATICS, reason=f"guides on the {guides.on} take it"),),
        assumptions=(Assumption("frame", text),) if partly else (),
    )
