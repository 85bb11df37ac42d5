"""What a fillet may bear: the strengths of one steel on the throat, and when a weld cannot be judged at all."""

import math
from typing import Any

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.errors import NotCovered
from structcheck.formula import remark
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards.en1993_1_8 import welds

NOT_INSPECTED = 0.7
"""Resistance of a weld nobody has inspected; ours, by analogy with pressure-vessel joint efficiency untested."""


@record
class Strength:
    """Strengths on the throat in MPa, quality of the weld included.

    simplified  any direction (4.5.3.3)
    equivalent  of the equivalent stress (4.5.3.2, first condition)
    normal      of the stress square to the throat (second condition)
    """

    simplified: float
    equivalent: float
    normal: float

    def share(self, sigma_perp: Any, tau_perp: Any, tau_par: Any) -> Any:
        """Share used by the directional method, numbers or arrays; leaves no trace in an open working.

        For looking for the point that decides, which `directional` then works out.
        """
        eq = welds.equivalent_stress.function(sigma_perp, tau_perp, tau_par)
        return np.maximum(eq / self.equivalent, np.abs(sigma_perp) / self.normal)

    def directional(self, sigma_perp: float, tau_perp: float, tau_par: float) -> tuple[float, str]:
        """Share used by the directional method, both conditions, and which decides."""
        both = (
            (
                welds.equivalent_stress(sigma_perp, tau_perp, tau_par) / self.equivalent,
                f"first condition, {self.equivalent:.4g} MPa equivalent stress on the throat",
            ),
            (
                abs(sigma_perp) / self.normal,
                f"second condition, {self.normal:.4g} MPa square to the throat",
            ),
        )
        return max(both)


def quality(inspected: bool) -> float:
    """Factor on the resistance for the way the weld was looked at."""
    return 1.0 if inspected else NOT_INSPECTED


def inspection() -> str:
    """The assumption printed where a weld was not inspected."""
    return (
        f"weld not inspected: resistance x {NOT_INSPECTED:g} (ours, by analogy with pressure-vessel joint efficiency "
        "without testing); fatigue categories presuppose a sound weld"
    )


def fillet_strength(steel: Steel, thickness: float | None, basis: Basis, inspected: bool) -> Strength:
    """Strengths of a fillet on the weaker part's steel. Raises NotCovered where Table 4.1 has no row."""
    if steel.beta_w is None:
        raise NotCovered(steel_reason(steel, True))
    f_u = steel.steps[0][2] if thickness is None else steel.f_u(thickness)
    factor = quality(inspected)
    if not inspected:
        remark(f"weld not inspected: strengths x {NOT_INSPECTED:g}")
    return Strength(
        factor * welds.fillet_shear_strength(f_u, steel.beta_w, basis.gamma_M2),
        factor * welds.equivalent_stress_limit(f_u, steel.beta_w, basis.gamma_M2),
        factor * welds.normal_stress_limit(f_u, basis.gamma_M2),
    )


def steel_reason(steel: Steel, weldable: bool) -> str:
    """Why a weld on this steel is not judged, or nothing."""
    if steel.imperial:
        return f"EN 1993-1-8 Table 4.1 has no correlation factor for {steel.name}; none is assumed for US steels"
    if not steel.in_en1993:
        return f"{steel.name} is outside EN 1993"
    if not steel.weldable and not weldable:
        known = "of unknown grade" if steel.assumed else steel.name
        return f"steel {known} is not known to be weldable; say that it is where you know"
    if steel.beta_w is None or not math.isfinite(steel.beta_w):
        return f"EN 1993-1-8 Table 4.1 has no correlation factor for {steel.name}"
    return ""


def weaker(one: Steel, other: Steel) -> Steel:
    """The steel whose f_u and beta_w both count where two are joined (4.5.3.2(6)): the one of lower strength."""
    return min(one, other, key=lambda steel: steel.steps[0][2])
