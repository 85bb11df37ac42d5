"""What must be known of the steel before a weld can be trusted: corners of cold-formed tube, thick plates."""

import math
from dataclasses import replace

from structcheck.findings import Assumption, Outcome, not_checked
from structcheck.shapes.section import Section
from structcheck.standards.en1993_1_8 import welds

THICK = 20.0
"""Above this a plate pulled through its thickness may tear in layers; ours, EN 1993-1-10 section 3 judges finer."""


def cold_corner(part: str, section: Section, killed: bool) -> tuple[Assumption, ...]:
    """The condition under which the corners of a cold-formed tube may be welded (EN 1993-1-8 4.14)."""
    if section.route != "cold formed" or "ri" not in section.dimensions:
        return ()
    r, t = section.dimensions["ri"], section.dimensions["t"]
    if t <= thickest_cold_bend(r / t):
        return ()
    text = f"{section.designation}: welded within 5 t of its cold-formed corners (EN 1993-1-8 4.14, Table 4.2)"
    if killed and t <= 12.5:
        return (Assumption(part, f"{text}; of aluminium-killed steel, as stated"),)
    if t <= 12.5:
        return (Assumption(part, text, f"{section.designation} is of aluminium-killed steel, J2H or K2H"),)
    return (Assumption(part, text, f"tests show that corners {t:g} mm thick may be welded"),)


STIFF_BEHIND = (
    "what the force across pulls on does not bend away (4.10): on a flange without stiffeners or on a tube's wall ask "
    "plate_on_flange or tube_joint"
)


def corner_of_unknown_make(part: str) -> Assumption:
    """The same where the section that is welded all round is not described."""
    text = "welded over the corners of a hollow section, whose make is not stated (EN 1993-1-8 4.14)"
    return Assumption(part, text, "the section is hot finished, or of aluminium-killed steel (J2H, K2H)")


def thickest_cold_bend(r_t: float) -> float:
    """Thickest wall in mm that may be welded near a bend of inner radius over thickness r_t, loads that repeat."""
    return next((t for least, t in welds.COLD_BENDS if r_t >= least - 1e-9), 0.0)


def through_thickness(part: str, thickest: float | None, across: bool) -> tuple[Assumption, ...]:
    """The condition under which a thick plate may be pulled through its thickness."""
    if thickest is None or thickest <= THICK or not across:
        return ()
    text = f"a plate of {thickest:g} mm is pulled through its thickness (EN 1993-1-10 section 3)"
    return (Assumption(part, text, "the thick plate is free of layers: tested by ultrasound, or of Z quality"),)


NOT_PLAIN = {
    "galvanised": "zinc in a weld leaves pores and cracks, and its fumes harm: grind it off well beyond the weld",
    "hardened": "a part hardened or quenched and tempered, as an 8.8 bolt or a shaft, softens or cracks at a weld",
    "threaded": "a weld on a thread starts at a notch and softens a bolt or rod; weld a plain part, or screw it",
}
"""What stands against a weld on such a part; common practice."""


RESTING = ("weld throat", "fatigue", "yield at greatest force")
"""Checks that rest on a sound weld and on the steel beside it."""


def unless_plain(outcome: Outcome, welded_on: str) -> Outcome:
    """The outcome of a weld on a part that is not plain steel: nothing that rests on its strength is judged."""
    if welded_on not in NOT_PLAIN:
        return outcome
    reason = f"welded on a {welded_on} part: {NOT_PLAIN[welded_on]}"
    findings = tuple(
        not_checked(f.part, f.check, reason, case=f.case) if f.check in RESTING else f for f in outcome.findings
    )
    return replace(outcome, findings=findings)


def size_advice(part: str, a: float, thinnest: float | None, thickest: float | None) -> tuple[str, ...]:
    """Throats that the plates do not take well; common practice, so advice and no verdict."""
    advice = []
    if thinnest is not None and a > 0.7 * thinnest:
        advice.append(
            f"{part}: a throat of {a:.3g} mm is above 0.7 x the thinner part of {thinnest:g} mm; it may burn through, "
            "and the part itself will be the weaker (common practice)"
        )
    least = math.sqrt(thickest) - 0.5 if thickest else 0.0
    if a < least:
        advice.append(
            f"{part}: a throat of {a:.3g} mm on a part {thickest:g} mm thick cools too fast; {least:.1f} mm or preheat "
            "(common practice)"
        )
    return tuple(advice)
