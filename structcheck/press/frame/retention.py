"""What keeps loose things in place, where the line of the jack's force runs, and what takes the couple."""

from collections.abc import Sequence

from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, judged, not_checked
from structcheck.press.cases import Forces
from structcheck.press.frame.off_centre import Offsets, Position
from structcheck.press.frame.states import Solved
from structcheck.press.frame_schema import FrameTables
from structcheck.press.schema import Jack

STATICS = "statics of the platen"
NOTHING = frozenset(
    {"none", "no", "nothing", "not", "gravity", "weight", "its weight", "own weight", "friction", "loose"}
)
"""What keeps nothing: a thing thrown does not fall back, and friction goes with the force."""
UNSURE = frozenset(
    {"unknown", "not yet", "later", "todo", "tbd", "yes", "something", "don't know", "do not know", "maybe"}
)


def retention(tables: FrameTables, loose: Sequence[str]) -> Outcome:
    """`retention` of each thing that could be thrown: stated by the user, or not checked."""
    stated = tables.retention
    words = {
        "jack foot": stated and stated.jack_foot,
        "saddle": stated and stated.saddle,
        "bed pins": stated and stated.bed_pins,
        "packers": stated and stated.packers,
    }
    return Outcome(tuple(_kept(thing, (words[thing] or "").strip()) for thing in loose))


def _kept(thing: str, words: str) -> Finding:
    key = f"[retention] {thing.replace(' ', '_')}"
    if not words:
        return not_checked(thing, "retention", f"what keeps it is not stated: {key}")
    said = words.lower().strip(" .!")
    if said in NOTHING:
        return judged(thing, "retention", "", 1.0, 0.0, "", "stated by the user", reason=f"nothing keeps it: {key}")
    if said in UNSURE or not any(letter.isalpha() for letter in said):
        return not_checked(thing, "retention", f'"{words}" does not say what keeps it: {key}')
    return judged(thing, "retention", "", 0.0, 1.0, "", "stated by the user, not judged", reason=words)


def off_axis(jack: Jack, tables: FrameTables, off: Offsets) -> float:
    """How far off the jack's own axis the force may stand, mm."""
    guided = tables.guides is not None and tables.guides.on != "ram"
    return 0.0 if guided else max(off.plane, off.across)


def line_of_force(jack: Jack, tables: FrameTables, off: Offsets) -> Outcome:
    """Whether the resultant stays inside the saddle, the foot and an eighth of the ram's diameter."""
    e = max(off.plane, off.across)
    guides = tables.guides
    ram = getattr(jack, "ram", None)
    saddle = jack.saddle / 2 if jack.saddle else None
    foot = jack.base / 2 if jack.base else None
    if e == 0.0:
        return Outcome(does_not_apply=(NotNeeded("jack", "resultant", "no load off centre is allowed for"),))
    if guides is None or guides.on == "ram":
        wanted = [("jack foot", foot, "base"), ("ram", ram / 8 if ram else None, "ram")]
        if guides is None:
            wanted.insert(0, ("saddle", saddle, "saddle"))
        return Outcome(tuple(_inside(thing, e, reach, key) for thing, reach, key in wanted))
    reason = "the guides take the couple"
    text = "guides fit closely enough to take the couple before the ram bends; measure their play"
    passed = min(e, saddle) if saddle is not None else e
    return Outcome(
        (_inside("jack foot", passed, foot, "base"),),
        does_not_apply=(NotNeeded("saddle", "resultant", reason), NotNeeded("ram", "resultant", reason)),
        assumptions=(Assumption("guides", text),),
    )


def _inside(thing: str, e: float, reach: float | None, key: str) -> Finding:
    if reach is None:
        return not_checked(thing, "resultant", f"its size is not stated: [jack] {key}")
    source = "core of a round bar, d / 8" if thing == "ram" else STATICS
    return judged(thing, "resultant", "off centre couple", e, reach, "mm", source)


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
    if guides and guides.on == "ram":
        reason = "the ram is built in and pushes off centre itself"
        return Outcome((judged(part, check, case, 0.0, couple, "kN m", STATICS, reason=reason),))
    if guides is None and jack.saddle is None:
        reason = "what takes the couple is not known: neither [guides] nor the saddle's diameter is stated"
        return Outcome((not_checked(part, check, reason),))
    if guides is None:
        left = max(0.0, e - (jack.saddle or 0.0) / 2) * forces.ultimate
        if left > 0:
            reason = (
                f"no guides: of {couple / 1e6:.2f} kN m the saddle passes on what its radius allows, nothing the rest"
            )
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
