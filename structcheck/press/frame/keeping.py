"""What keeps loose things in place, by the builder's words: a few are understood, all others are no answer."""

import re
from collections.abc import Sequence

from structcheck.findings import Finding, NotNeeded, Outcome, judged, not_checked
from structcheck.press.frame_schema import FrameTables

NOTHING = frozenset(
    {"none", "no", "nothing", "not", "gravity", "weight", "its weight", "own weight", "friction", "loose"}
)
"""What keeps nothing: a thing thrown does not fall back, and friction goes with the force."""

DOUBTS = frozenset({"no", "not", "none", "without", "never", "missing", "later", "todo", "tbd", "maybe", "loose"})
"""Words that take back what stands beside them."""

KEEPS = (
    *("ring", "collar", "sleeve", "rim", "lip", "flange", "cup", "pocket", "socket", "recess", "groove", "cage", "box"),
    *("lug", "stop", "block", "bracket", "fence", "angle", "cleat", "spigot", "dowel", "key", "shoulder", "holder"),
    *("pin", "split", "cotter", "clip", "circlip", "strap", "band", "chain", "cable", "clamp", "tie", "bolt", "screw"),
    *("nut", "rivet", "thread", "seat", "hole", "bore", "notch", "slot", "rail", "tab", "peg", "stud", "latch", "hook"),
)
"""How words begin that name a thing that holds another."""

WELDED = "weld"
"""Holds everything but a jack: heat ruins it, and its ram must stay free of the platen."""


NO_PACKERS = frozenset({"none", "no packers"})
"""Says that there are none; the height in the line of the force is then that of the parts described and the work."""


def loose_things(tables: FrameTables) -> tuple[str, ...]:
    """What could be thrown out of this frame."""
    things = ["jack foot", "saddle"]
    if tables.frame.shape == "H":
        things.append("bed pins")
    if not no_packers(tables):
        things.append("packers")
    return tuple(things)


def no_packers(tables: FrameTables) -> bool:
    """Whether the builder says that nothing loose lies in the line of the force."""
    packers = tables.retention and tables.retention.packers
    return (packers or "").strip().lower() in NO_PACKERS


def retention(tables: FrameTables, loose: Sequence[str]) -> Outcome:
    """`retention` of each thing that could be thrown: stated by the user, or not checked."""
    stated = tables.retention
    words = {
        "jack foot": stated and stated.jack_foot,
        "saddle": stated and stated.saddle,
        "bed pins": stated and stated.bed_pins,
        "packers": stated and stated.packers,
    }
    none = () if "packers" in loose else (NotNeeded("packers", "retention", "stated: there are none"),)
    return Outcome(tuple(_kept(thing, (words[thing] or "").strip()) for thing in loose), none)


def _kept(thing: str, words: str) -> Finding:
    key, check = f"[retention] {thing.replace(' ', '_')}", "retention"
    if not words:
        without = (
            ', or packers = "none" where nothing loose lies in the line of the force' if thing == "packers" else ""
        )
        return not_checked(thing, check, f"what keeps it is not stated: {key}{without}")
    if words.lower().strip(" .!") in NOTHING:
        return judged(thing, check, "", 1.0, 0.0, "", "stated by the user", reason=f"nothing keeps it: {key}")
    said = re.findall(r"[a-z]+", words.lower())
    named = [word for word in said if word.startswith(KEEPS)]
    welded = any(word.startswith(WELDED) for word in said)
    if DOUBTS.intersection(said) or not (named or welded):
        ways = "a ring, pocket, socket, collar, lugs, stops, a strap, pins, bolts, screws, a clamp"
        return not_checked(thing, check, f'"{words}" does not say what keeps it, such as {ways}: {key}')
    if not named and thing in ("jack foot", "saddle"):
        reason = "nothing is welded to a jack: the heat ruins it, and the ram must stay free of the platen"
        return judged(thing, check, "", 1.0, 0.0, "", "stated by the user; a jack's caution", reason=reason)
    return judged(thing, check, "", 0.0, 1.0, "", "stated by the user, not judged", reason=words)
