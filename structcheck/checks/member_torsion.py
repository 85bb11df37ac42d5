"""Torsion of open sections about their shear centre: what a load beside it does to a channel."""

from typing import Any

from structcheck.checks.member_forms import closed, form
from structcheck.errors import NotCovered
from structcheck.formula import remembered
from structcheck.record import record
from structcheck.standards import handbook_torsion as vlasov
from structcheck.standards.en1993_1_1.cross_section import shear_yield_strength


@record
class Warping:
    """Sectorial properties of an open section.

    e      from the web's middle line to the shear centre, mm
    omega  greatest sectorial coordinate, mm2
    S      greatest sectorial first moment, mm4, in a wall of thickness t
    """

    e: float
    omega: float
    S: float
    t: float


@remembered
def warping(section: Any) -> Warping:
    """Sectorial properties of a channel or an I. Raises NotCovered for other open sections."""
    shape, kind = getattr(section, "shape", section), form(section)
    if kind == "i":
        h = shape.h - shape.tf
        omega = vlasov.sectorial_coordinate_i(shape.b, h)
        return Warping(0.0, omega, vlasov.sectorial_moment_i(shape.b, shape.tf, h), shape.tf)
    if kind == "channel":
        b, h = shape.b - shape.tw / 2, shape.h - shape.tf
        e = shape.tw / 2 - section.centroid[0] - section.y_s
        omega = vlasov.sectorial_coordinate_channel(b, h, e)
        return Warping(e, omega, vlasov.sectorial_moment_channel(b, shape.tf, h, e), shape.tf)
    raise NotCovered("torsion of this open section needs its sectorial properties, which are not known here")


def torsion_share(section: Any, f_y: Any, T: Any, T_w: Any) -> Any:
    """Share t of the shear strength that torsion takes: V_pl,T,Rd is at least (1 - t) V_pl,Rd; numbers or arrays.

    f_y     MPa, over gamma_M0
    T, T_w  torques of one piece, N mm; of an open section Saint-Venant's and the warping part

    (6.28) for closed walls and, safe, for solid bars; a safe straight line under (6.26) and (6.27) for open ones.
    """
    tau_Rd = shear_yield_strength(f_y)
    tau_t = T / section.Wt
    if closed(section):
        return tau_t / tau_Rd
    warped = warping(section)
    return tau_t / (1.25 * tau_Rd) + vlasov.warping_shear_stress(T_w, warped.S, section.Iw, warped.t) / tau_Rd
