"""Bolts through a tube or past open gaps: longer than three diameters between the outer plies they bend like pins."""

from dataclasses import replace

import numpy as np

from structcheck.checks import pin as pin_checks
from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import BoltGroup, BoltLoads, in_plane
from structcheck.checks.pin_part import Pin, PinLoads, steel_of_bolt
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding

NEEDED = ("pin bearing", "pin bending", "pin shear and bending")
SHORT = 3.0
"""Lengths in diameters up to which a pin that need not turn counts as a bolt (3.13.1(3))."""


def is_pin(part: BoltGroup) -> bool:
    """The plies stand open, or a tube's walls do, and the bolt is longer than three diameters across the outer ones."""
    if not part.gap and not part.hollow:
        return False
    outer = _outer(part)
    if outer is None or part.inner is None:
        return True
    return 2 * outer + 2 * (part.gap or 0.0) + part.inner + (part.hollow or 0.0) >= SHORT * part.size.d


def _outer(part: BoltGroup) -> float | None:
    return part.ply if part.outer is None else part.outer


def as_pin(part: BoltGroup) -> Pin:
    """The bolt as a pin; a tube's walls in the middle push it as one plate of both would. Raises NotCovered.

    Where its plies are not known, or it is cut in more or fewer planes than two.
    """
    outer = _outer(part)
    missing = [key for key, value in (("inner", part.inner), ("ply", outer)) if value is None]
    if missing:
        raise NotCovered(f"{' and '.join(f'`{key}`' for key in missing)} not stated: the bolt bends across its gaps")
    if part.planes != 2:
        raise NotCovered("a bolt that bends across gaps is judged in double shear only: planes = 2")
    return Pin(
        name=part.name,
        diameter=part.size.d,
        steel=steel_of_bolt(part.bolt_class),
        inner=part.inner,
        outer=outer,
        hole=part.d_0,
        gap=part.gap or 0.0,
        replaceable=False,
        inner_steel=part.steel,
        outer_steel=part.steel,
    )


def _on_worst(part: BoltGroup, loads: BoltLoads) -> PinLoads:
    return PinLoads(loads.case, float(np.max(np.hypot(*in_plane(part, loads).T))))


def _of_worst(finding: Finding, part: BoltGroup) -> Finding:
    if part.count == 1:
        return finding
    return replace(finding, reason="; ".join(text for text in (finding.reason, "of the worst bolt") if text))


def bearing(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Pin bearing of the worst bolt, wall by wall."""
    return _of_worst(pin_checks.bearing(as_pin(part), _on_worst(part, loads), basis), part)


def bending(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Bending of the worst bolt."""
    return _of_worst(pin_checks.bending(as_pin(part), _on_worst(part, loads), basis), part)


def shear_and_bending(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """Shear with bending of the worst bolt."""
    return _of_worst(pin_checks.shear_and_bending(as_pin(part), _on_worst(part, loads), basis), part)


def bending_stress(part: BoltGroup, loads: BoltLoads) -> float:
    """Elastic bending stress of the worst bolt; nothing where its plies touch. Raises NotCovered like `as_pin`."""
    if not is_pin(part) or not loads.sheared:
        return 0.0
    return pin_checks.stresses(as_pin(part), _on_worst(part, loads))[0]


def assumptions(part: BoltGroup) -> tuple[Assumption, ...]:
    """What a bolt through a tube rests on."""
    if not is_pin(part):
        return ()
    return (
        Assumption(part.name, "the shank, not the thread, stands in the middle of the tube where bending is worst"),
    )
