"""What warmth takes from the force of a spring of any kind: a softer wire, and what it loses by relaxation."""

from structcheck.errors import NotCovered, Problem
from structcheck.findings import Assumption
from structcheck.standards import en13906_1 as en

LOSS_PER_KELVIN = 0.25e-3
"""Share of the shear modulus of unalloyed and low-alloy wire lost per kelvin (EN 13906-1, memory)."""

RELAXES_FROM = 40.0
"""degC above which EN 13906-1 has curves of the force lost by relaxation (memory); they are not here."""

COLDEST, WARMEST = -30.0, 100.0
"""degC between which spring wire has the strength of its table (a maker's page, read)."""

USUAL = 20.0
"""degC taken where no temperature is stated."""


def warmth(temperature: float | None) -> float:
    """Temperature of the spring at work, degC."""
    return USUAL if temperature is None else temperature


def share_kept(temperature: float | None, relaxation: float | None) -> float:
    """Share of the cold force that is left. Raises NotCovered where it relaxes and nobody says by how much."""
    at = warmth(temperature)
    if relaxation is None and at > RELAXES_FROM:
        raise NotCovered(
            f"at {at:g} degC the spring loses force by relaxation, for which EN 13906-1 has curves that are not here; "
            "state relaxation, the share lost, from its maker, or measured after two days pressed and warm"
        )
    softer = min(en.warm_shear_modulus(1.0, LOSS_PER_KELVIN, at), 1.0)
    return (1.0 - (relaxation or 0.0)) * softer


def require_strength(temperature: float | None) -> None:
    """Raise NotCovered where wire has not the strength of its table."""
    at = warmth(temperature)
    if not COLDEST <= at <= WARMEST:
        known = f"{COLDEST:g} to {WARMEST:g} degC"
        raise NotCovered(f"at {at:g} degC the wire has not the strength of its table ({known}); state strength")


def assumed(part: str, temperature: float | None, relaxation: float | None) -> tuple[Assumption, ...]:
    """What is taken of the force lost."""
    at = warmth(temperature)
    if relaxation is not None:
        text = f"{relaxation:.1%} of the force is lost by relaxation at {at:g} degC (stated)"
    elif at <= RELAXES_FROM:
        text = f"at {at:g} degC, no force is counted as lost by relaxation"
    else:
        return ()
    return (Assumption(part, text),)


def problems(part: str, relaxation: float | None) -> list[Problem]:
    """A loss that is no share of the force."""
    if relaxation is None or 0 <= relaxation < 1:
        return []
    fault, wanted = "is not a share of the force", "from 0 to 1: 0.1 where a tenth is lost"
    return [Problem("relaxation", f"{relaxation:g}", fault, wanted, "relaxation = 0.1", part)]
