"""Flexural and torsional-flexural buckling of members in compression (EN 1993-1-1 6.3.1), curve by Table 6.2."""

from typing import Any

import numpy as np

from structcheck.checks.member_class import class_in_compression
from structcheck.checks.member_effective import effective
from structcheck.checks.member_forms import E, Form, G, closed, form
from structcheck.errors import NotCovered
from structcheck.formula import remembered
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards.en1993_1_1 import buckling as code


@record
class Lengths:
    """Buckling lengths of a member, mm: about y, about z, and between places held against twisting."""

    y: float
    z: float
    twist: float


@record
class Mode:
    """One way a member can buckle, of one piece.

    about  "y", "z", "v", "twist"
    chi    reduction factor; N_b its resistance in N before gamma_M1
    """

    about: str
    N_cr: float
    slenderness: float
    curve: str
    chi: float
    N_b: float
    source: str = f"{code.CODE} 6.3.1"

    @property
    def text(self) -> str:
        """For a finding."""
        way = "twisting" if self.about == "twist" else f"about {self.about}"
        reduced = f"lambda {self.slenderness:.2f}, curve {self.curve}, chi {self.chi:.3f}"
        return f"{way}: N_cr {self.N_cr / 1e3:.4g} kN, {reduced}"


def table_6_2(
    kind: Form | str,
    route: str,
    axis: str,
    *,
    h_b: float = 1.0,
    t_f: float = 0.0,
    s460: bool = False,
    heavy: bool = False,
) -> str:
    """Buckling curve of Table 6.2.

    kind   form of the section, or "welded box"
    route  "rolled", "welded", "hot finished", "cold formed", ...
    axis   "y" or "z"
    heavy  welded box with throats over half of t_f, b/t_f and h/t_w below 30
    """
    weak = axis != "y"
    if kind == "i" and route == "welded":
        return ("c", "d")[weak] if t_f > 40 else ("b", "c")[weak]
    if kind == "i":
        if h_b > 1.2:
            if t_f > 100:
                raise NotCovered(f"Table 6.2 has no row for a flange of {t_f:g} mm in a deep rolled section")
            if t_f <= 40:
                return "a0" if s460 else ("a", "b")[weak]
            return "a" if s460 else ("b", "c")[weak]
        if t_f > 100:
            return "c" if s460 else "d"
        return "a" if s460 else ("b", "c")[weak]
    if kind == "box":
        kind = "welded box"
    if kind in ("hollow", "tube"):
        if route == "hot finished":
            return "a0" if s460 else "a"
        return "c"
    if kind == "welded box":
        return "c" if heavy else "b"
    return "b" if kind == "angle" else "c"


def curve(section: Any, axis: str) -> str:
    """Buckling curve of a section; a shape the table does not list takes c."""
    shape = getattr(section, "shape", section)
    kind, route = form(section), getattr(section, "route", "rolled")
    if kind == "i":
        return table_6_2(kind, route, axis, h_b=shape.h / shape.b, t_f=shape.tf)
    return table_6_2(kind, route, axis)


@remembered
def modes(section: Any, steel: Steel, f_y: float, lengths: Lengths) -> tuple[Mode, ...]:
    """Every way one piece can buckle in compression. Raises NotCovered where a curve or a shape is not known."""
    if steel.imperial:
        raise NotCovered(f"{steel.name}: no EN buckling curve is assumed for a US steel")
    A = area(section, f_y)
    if form(section) == "angle":
        return _angle_modes(section, f_y, A, lengths)
    N_y = float(code.critical_force(E, section.Iy, lengths.y))
    N_z = float(code.critical_force(E, section.Iz, lengths.z))
    found = [_mode("y", N_y, curve(section, "y"), A, f_y), _mode("z", N_z, curve(section, "z"), A, f_y)]
    if not closed(section):
        found.append(_mode("twist", _twisting(section, N_y, lengths), curve(section, "z"), A, f_y, "6.3.1.4"))
    return tuple(found)


def area(section: Any, f_y: float) -> float:
    """A, or A_eff in class 4, of one piece, mm2."""
    if class_in_compression(section, f_y).number == 4:
        return float(effective(section, f_y, N=1.0).A)
    return float(section.A)


def _mode(about: str, N_cr: float, name: str, A: float, f_y: float, clause: str = "6.3.1.1") -> Mode:
    lambda_bar = float(code.slenderness(A, f_y, N_cr))
    chi = 1.0
    if lambda_bar > 0.2:
        chi = float(code.reduction(code.phi(code.IMPERFECTION[name], lambda_bar), lambda_bar))
    N_b = float(code.buckling_resistance(chi, A, f_y, 1.0))
    return Mode(about, N_cr, lambda_bar, name, chi, N_b, f"{code.CODE} {clause}")


def _twisting(section: Any, N_cr_y: float, lengths: Lengths) -> float:
    """N_cr of torsional or, where the shear centre lies off the centroid along y, torsional-flexural buckling."""
    y_0, z_0 = section.y_s, section.z_s
    if abs(z_0) > 1e-6 * section.i_y:
        raise NotCovered("torsional-flexural buckling of a section not symmetric about y is not covered here")
    i_0 = float(np.sqrt(section.i_y**2 + section.i_z**2 + y_0**2))
    N_T = float(code.critical_force_torsion(i_0, G, section.It, E, section.Iw, lengths.twist))
    if abs(y_0) <= 1e-6 * i_0:
        return N_T
    return float(code.critical_force_torsional_flexural(N_cr_y, N_T, 1 - (y_0 / i_0) ** 2))


def _angle_modes(section: Any, f_y: float, A: float, lengths: Lengths) -> tuple[Mode, ...]:
    """An angle buckles about its weak principal axis v, or about u while twisting; equal legs only."""
    shape = section.shape
    if abs(shape.h - shape.b) > 1e-9 * shape.h:
        raise NotCovered("torsional-flexural buckling of an angle with unequal legs is not covered here")
    longer = max(lengths.y, lengths.z)
    N_v = float(code.critical_force(E, section.Iv, longer))
    N_u = float(code.critical_force(E, section.Iu, longer))
    off = float(np.hypot(section.y_s, section.z_s))
    i_0 = float(np.sqrt((section.Iu + section.Iv) / section.A + off**2))
    N_T = float(code.critical_force_torsion(i_0, G, section.It, E, section.Iw, lengths.twist))
    N_TF = float(code.critical_force_torsional_flexural(N_u, N_T, 1 - (off / i_0) ** 2))
    return _mode("v", N_v, "b", A, f_y), _mode("twist", N_TF, "b", A, f_y, "6.3.1.4")
