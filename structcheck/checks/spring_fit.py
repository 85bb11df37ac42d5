"""What keeps a spring straight: whether the coil goes over its rod or into its tube, and is close enough to it."""

from structcheck.checks.coil import Coil
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding, judged, not_checked
from structcheck.standards import en13906_1 as en

GUIDE_FIT = "spring guide fit"
"""Whether the coil goes over its rod or into its tube."""

ROD_GAP = 0.5
"""Least difference between the inside of a coil and its rod, mm (common practice: 0.5 to 1)."""

TUBE_GAP = 1.0
"""Least difference between a tube and the outside of a pressed coil, mm (common practice: 1 to 2)."""

LOOSE = 0.25
"""Play, as a share of the coil's inside or outside, above which a rod or tube no longer keeps it straight; ours."""

LEAST_LOOSE = 2.0
"""mm of play that count as close whatever the coil's size; ours."""


def inside(coil: Coil) -> float:
    """Inside diameter of the coil, mm."""
    return coil.D - coil.d


def grown(coil: Coil) -> float:
    """Outside diameter of the coil when pressed together, mm."""
    return coil.D + coil.d + max(0.0, en.outside_growth(coil.pitch, coil.d, coil.D))


def rods(coil: Coil) -> tuple[float, float]:
    """The thinnest and the thickest rod that keep the spring straight, mm."""
    bore = inside(coil)
    return bore - max(LEAST_LOOSE, LOOSE * bore), bore - ROD_GAP


def tubes(coil: Coil) -> tuple[float, float]:
    """The narrowest and the widest tube that keep the spring straight, mm."""
    least, outside = grown(coil) + TUBE_GAP, coil.D + coil.d
    return least, max(least, outside + max(LEAST_LOOSE, LOOSE * outside))


def fits(coil: Coil) -> tuple[Finding, ...]:
    """Whether the coil goes over the rod and into the tube, where their diameters are stated."""
    spring = coil.spring
    try:
        over = () if spring.rod is None else (_over_rod(coil, spring.rod),)
        return over if spring.tube is None else (*over, _into_tube(coil, spring.tube))
    except NotCovered as reason:
        return (not_checked(spring.name, GUIDE_FIT, str(reason)),)


def _over_rod(coil: Coil, rod: float) -> Finding:
    """The rod with its play against the inside of the coil."""
    bore = inside(coil)
    does = "goes" if bore >= rod + ROD_GAP else "does not go"
    reason = f"inside {bore:.4g} mm {does} over the rod of {rod:g} mm"
    source = f"common practice, {ROD_GAP:g} mm of play"
    return judged(coil.spring.name, GUIDE_FIT, "open", rod + ROD_GAP, bore, "mm", source, reason=reason)


def _into_tube(coil: Coil, tube: float) -> Finding:
    """The coil, grown when pressed, with its play against the inside of the tube."""
    outside = grown(coil)
    does = "goes" if outside + TUBE_GAP <= tube else "does not go"
    reason = f"outside {outside:.4g} mm when pressed {does} into the tube of {tube:g} mm"
    source = f"common practice, {TUBE_GAP:g} mm of play"
    return judged(coil.spring.name, GUIDE_FIT, "closed", outside + TUBE_GAP, tube, "mm", source, reason=reason)


def too_loose(coil: Coil) -> str:
    """Why the rod and tube stated do not keep the spring straight; empty where one does or none is stated."""
    spring = coil.spring
    if spring.rod is None and spring.tube is None:
        return ""
    thinnest, widest = rods(coil)[0], tubes(coil)[1]
    if (spring.rod or 0.0) >= thinnest or (spring.tube is not None and spring.tube <= widest):
        return ""
    if spring.rod is not None:
        return f"a rod of {spring.rod:g} mm is too loose to keep it straight, one of {thinnest:.4g} mm and more does"
    return f"a tube of {spring.tube:g} mm is too wide to keep it straight, one of {widest:.4g} mm and less does"


def fit_assumed(coil: Coil) -> tuple[Assumption, ...]:
    """What keeps a spring on its seats where nobody says, and what is taken of a rod or tube of unknown size.

    That the spring is held is the user's own word, so that no condition is made of it.
    """
    spring = coil.spring
    if spring.straight == "no" and not spring.seats_parallel:
        condition = f"cups or spigots keep {spring.name} on its seats"
        text = (
            f"{condition}: neither rod nor tube does, and its ends are not said to be unable to shift (seats_parallel)"
        )
        return (Assumption(spring.name, text, condition),)
    if spring.straight == "no" or spring.rod is not None or spring.tube is not None:
        return ()
    try:
        least, most = rods(coil) if spring.straight == "rod" else tubes(coil)
        what = f"a {spring.straight} of {least:.4g} to {most:.4g} mm"
    except NotCovered:
        play = {"rod": "0.5 to 1 mm thinner than the coil inside", "tube": "1 to 2 mm wider than the coil"}
        what = f"a {spring.straight} {play[spring.straight]}"
    text = f"the diameter of its {spring.straight} is not stated, write {spring.straight}: {what} is taken"
    return (Assumption(spring.name, f"{text}, over the whole length of the spring"),)
