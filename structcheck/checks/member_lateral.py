"""Lateral torsional buckling of a member between places held against twisting (EN 1993-1-1 6.3.2)."""

from typing import Any, Literal

from structcheck.checks.member_forms import E, G, form
from structcheck.errors import NotCovered
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards.en1993_1_1 import buckling
from structcheck.standards.en1993_1_1 import lateral_torsional as code

Method = Literal["general", "rolled"]


@record
class Lateral:
    """Reduction by lateral torsional buckling, and how it was found."""

    chi: float
    slenderness: float
    curve: str
    source: str

    @property
    def text(self) -> str:
        """For a finding."""
        return f"lambda_LT {self.slenderness:.2f}, curve {self.curve}, chi_LT {self.chi:.2f}"


@record
class Segment:
    """A length of member between lateral restraints, for M_cr by coefficients.

    length    mm
    C_1, C_2  by the moment diagram and the load; 1.0 for C_1 is always safe
    z_g       height of the load above the shear centre, mm; positive makes it worse
    """

    length: float
    C_1: float = 1.0
    C_2: float = 0.0
    z_g: float = 0.0


def can_buckle(section: Any) -> bool:
    """Whether bending about the strong axis can throw the section sideways at press spans."""
    kind = form(section)
    if kind in ("hollow", "tube", "box", "round"):
        return False
    return not (kind == "rectangle" and section.shape.h <= section.shape.b * (1 + 1e-9))


def critical_moment(section: Any, segment: Segment) -> float:
    """M_cr of one piece by coefficients, N mm; for a section symmetric about the axis it bends about."""
    N_cr_z = code.euler_term(E, section.Iz, segment.length)
    return float(
        code.critical_moment(segment.C_1, N_cr_z, section.Iw, section.Iz, G, section.It, segment.C_2, segment.z_g)
    )


def lateral_reduction(section: Any, steel: Steel, f_y: float, W: float, M_cr: float, method: Method) -> Lateral:
    """chi_LT by the general case (6.3.2.2) or that of rolled sections (6.3.2.3), never a mixture.

    W  the modulus of the section's class, mm3
    """
    if form(section) in ("angle", "other"):
        raise NotCovered("lateral torsional buckling of this shape turns about axes that are not covered here")
    if steel.imperial:
        raise NotCovered(f"{steel.name}: no EN buckling curve is assumed for a US steel")
    lambda_LT = code.slenderness(W, f_y, M_cr)
    if method == "rolled" and form(section) != "i":
        raise NotCovered("6.3.2.3 is for rolled or equivalent welded I sections")
    curve = curve_of(section, method)
    alpha = buckling.IMPERFECTION[curve]
    if method == "general":
        if lambda_LT <= 0.2:
            return Lateral(1.0, lambda_LT, curve, f"{code.CODE} 6.3.2.2(4)")
        chi = code.reduction_general(code.phi_general(alpha, lambda_LT), lambda_LT)
        return Lateral(chi, lambda_LT, curve, f"{code.CODE} 6.3.2.2")
    if lambda_LT <= 0.4:
        return Lateral(1.0, lambda_LT, curve, f"{code.CODE} 6.3.2.3, 6.3.2.2(4)")
    chi = code.reduction_rolled(code.phi_rolled(alpha, lambda_LT), lambda_LT)
    return Lateral(chi, lambda_LT, curve, f"{code.CODE} 6.3.2.3")


def curve_of(section: Any, method: Method, *, route: str | None = None, deep: bool | None = None) -> str:
    """Buckling curve of Table 6.4 (general) or 6.5 (rolled and equivalent welded).

    route, deep  how the section is made, and whether h / b is over 2; None: asked of the section
    """
    if form(section) != "i":
        return "d"
    shape = getattr(section, "shape", section)
    deep = shape.h / shape.b > 2 if deep is None else deep
    route = getattr(section, "route", "rolled") if route is None else route
    if route == "welded":
        return "d" if deep else "c"
    if method == "general":
        return "b" if deep else "a"
    return "c" if deep else "b"
