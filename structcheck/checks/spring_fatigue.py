"""Fatigue of a compression spring: the textbooks' line, and the spring makers' handbook, which is stricter.

The textbooks rest on Zimmerli's tests of good wire with a clean surface; beyond their line a spring fails. The makers'
handbook, and what is recalled of the diagrams of EN 13906-1 for DH wire, lie up to a third lower. Nothing says that the
wire of an unmarked spring is as good as what was tested: between the two it holds only if its maker says so.
"""

import math

from structcheck.checks.basis import Basis
from structcheck.checks.coil import Coil
from structcheck.checks.spring_warm import WARMEST
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding, NotNeeded, judged
from structcheck.showing import count
from structcheck.standards import en13906_1 as en
from structcheck.standards import handbook_springs as handbook

STATIC_PRESSES = 10_000
"""Load cycles up to which EN 13906-1 takes a spring as statically loaded (recalled)."""

ENDLESS = 1e6
"""Cycles from which Zimmerli's data are taken as endless life."""

MAKERS = "spring makers' handbook (memory)"
MAKERS_SHARE = ((1e5, 0.36), (1e6, 0.33), (math.inf, 0.30))
"""Presses and the greatest corrected stress over R_m, from nothing, not peened (spring makers' handbook, memory)."""

STATE_RANGE = "state permissible_range, the range of corrected shear stress its maker allows at so many presses"

THICKEST_FATIGUE = 10.0
"""Wire diameter in mm up to which Zimmerli's data were found."""


def fatigue(coil: Coil, basis: Basis) -> Finding | NotNeeded:
    """The range of corrected stress from fitted to pressed against that of so many presses. Raises NotCovered."""
    spring, check = coil.spring, "fatigue"
    if basis.static:
        return NotNeeded(spring.name, check, "static duty stated")
    if basis.presses <= STATIC_PRESSES:
        few = f"{count(basis.presses)} presses: up to {count(STATIC_PRESSES)} {en.EDITION} takes the load as static"
        return NotNeeded(spring.name, check, few)
    if spring.fitted == spring.pressed:
        return NotNeeded(spring.name, check, "the spring does not move")
    tau_1, tau_2 = _corrected(coil)
    if spring.permissible_range is not None:
        source = f"{en.EDITION}: corrected stress; the range allowed at so many presses is the user's"
        return judged(spring.name, check, "fitted to pressed", tau_2 - tau_1, spring.permissible_range, "MPa", source)
    used = textbook_ratio(coil, basis.presses)
    lg_N = fatigue_life(coil)
    life = "endless" if math.isinf(lg_N) else f"{count(10**lg_N, 3)} presses" if lg_N >= 3 else "below 1 000 presses"
    return judged(
        spring.name,
        check,
        "fitted to pressed",
        tau_2 - tau_1,
        (tau_2 - tau_1) / used,
        "MPa",
        f"Goodman line through {handbook.ZIMMERLI}, amplitude at most Zimmerli's; no partial factor",
        reason=f"at {count(basis.presses)} presses, stress corrected for curvature; life {life}; "
        f"{makers_ratio(coil, basis.presses):.2f} by the {MAKERS}",
    )


def is_judged(coil: Coil, basis: Basis) -> bool:
    """Whether the lines here, and not the maker's own figure, decide on a spring that is pressed often."""
    often = basis.presses > STATIC_PRESSES and not basis.static and coil.spring.fitted != coil.spring.pressed
    return often and coil.spring.permissible_range is None


def fatigue_assumed(coil: Coil, basis: Basis) -> tuple[Assumption, ...]:
    """What a spring between the two lines rests on. Raises NotCovered where neither line reaches."""
    if not is_judged(coil, basis) or not textbook_ratio(coil, basis.presses) <= 1 < makers_ratio(coil, basis.presses):
        return ()
    tau_1, tau_2 = _corrected(coil)
    name, presses = coil.spring.name, count(basis.presses)
    condition = f"the maker of {name} permits its wire {tau_1:.0f} to {tau_2:.0f} MPa at {presses} presses"
    text = f"{condition}: the textbooks' line does, the {MAKERS} does not; {STATE_RANGE}, or take a softer spring"
    return (Assumption(name, text, condition),)


def _corrected(coil: Coil) -> tuple[float, float]:
    """Corrected stress fitted and pressed."""
    k = en.stress_correction(coil.w)
    lengths = (coil.spring.fitted, coil.spring.pressed)
    return tuple(en.corrected_stress(k, coil.stress(length)) for length in lengths)  # type: ignore[return-value]


def _strengths(coil: Coil) -> tuple[float, float, float]:
    """(S_su, S_se, S_3) of the wire. Raises NotCovered where Zimmerli's data say nothing."""
    if coil.spring.coiling == "hot":
        raise NotCovered(f"hot coiled: Zimmerli's data are for cold-drawn wire; {STATE_RANGE}")
    if coil.d > THICKEST_FATIGUE:
        raise NotCovered(f"wire of {coil.d:g} mm: Zimmerli's data end at {THICKEST_FATIGUE:g} mm; {STATE_RANGE}")
    if coil.spring.warmth > WARMEST:
        raise NotCovered(f"at {coil.spring.warmth:g} degC: Zimmerli's data were found cold; {STATE_RANGE}")
    S_su = handbook.torsional_strength(coil.R_m)
    if S_su <= handbook.ZIMMERLI_MEAN:
        raise NotCovered(f"R_m {coil.R_m:g} MPa is below what Zimmerli's data were found on")
    S_se = handbook.endurance_amplitude(handbook.ZIMMERLI_AMPLITUDE, handbook.ZIMMERLI_MEAN, S_su)
    S_3 = handbook.amplitude_at_1000(S_su)
    if S_se >= S_3:
        raise NotCovered(f"R_m {coil.R_m:g} MPa is below what Zimmerli's data were found on")
    return S_su, S_se, S_3


def textbook_ratio(coil: Coil, presses: float) -> float:
    """Inverse of the factor by which the forces fitted and pressed can grow together, by the line through Zimmerli's.

    gamma_Mf has no place here: it belongs to the curves of EN 1993-1-9, which are for steel structures.
    """
    S_su, S_se, S_3 = _strengths(coil)
    tau_1, tau_2 = _corrected(coil)
    tau_a, tau_m = (tau_2 - tau_1) / 2, (tau_2 + tau_1) / 2
    lg_N = min(max(math.log10(presses), 3.0), math.log10(ENDLESS))
    S_N = handbook.amplitude_at_life(S_3, S_se, lg_N)
    # The Goodman line promises more amplitude at small mean stress than was ever tested: Zimmerli's own is the most.
    most = handbook.ZIMMERLI_AMPLITUDE * S_N / S_se
    return max(handbook.goodman_ratio(tau_a, tau_m, S_N, S_su), tau_a / most)


def makers_ratio(coil: Coil, presses: float) -> float:
    """The same by the makers' share of R_m, on a Goodman line; fewer presses than 1e5 count as 1e5."""
    S_su, _, _ = _strengths(coil)
    tau_1, tau_2 = _corrected(coil)
    pulled = next(share for most, share in MAKERS_SHARE if presses <= most) * coil.R_m / 2
    S_e = handbook.endurance_amplitude(pulled, pulled, S_su)
    return handbook.goodman_ratio((tau_2 - tau_1) / 2, (tau_2 + tau_1) / 2, S_e, S_su)


def fatigue_life(coil: Coil) -> float:
    """lg of the presses at which the fatigue check is used up; infinite: endless, below 3: less than 1000."""
    if textbook_ratio(coil, ENDLESS) <= 1:
        return math.inf
    low, high = 3.0, math.log10(ENDLESS)
    if textbook_ratio(coil, 10**low) > 1:
        return 0.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if textbook_ratio(coil, 10**middle) <= 1 else (low, middle)
    return low


def fatigue_margin(coil: Coil, basis: Basis) -> str:
    """How far the lines are away: they have no partial factor, so the margin is the reader's to judge."""
    if basis.static or coil.spring.fitted == coil.spring.pressed:
        raise NotCovered("no fatigue to judge")
    by_book, by_makers = (1 / ratio(coil, basis.presses) for ratio in (textbook_ratio, makers_ratio))
    presses = count(basis.presses)
    return (
        f"fatigue: the forces could grow {by_book:.2f} times at {presses} presses by the textbooks' line as it stands, "
        f"{by_makers:.2f} by the {MAKERS}"
    )


def of_cycled_wire(coil: Coil, basis: Basis) -> tuple[str, ...]:
    """What wire a spring that is pressed often wants."""
    if not is_judged(coil, basis) or coil.grade.grade not in ("SL", "SM", "SH") or coil.spring.coiling == "hot":
        return ()
    return (
        f"{coil.grade.grade} wire is sold for springs at rest, its surface flaws not limited (EN 10270-1, memory): for "
        f"{count(basis.presses)} presses DM or DH wire; look for a break now and then",
    )
