"""What the wall of a hollow section bears from a tube or a plate welded to it (EN 1993-1-8 section 7).

A face narrower loaded than its own width bends long before the side walls or the weld are used up. Outside the
ranges of Tables 7.1, 7.8 and 7.13 nothing is said.
"""

import math
from typing import Literal, NamedTuple

from structcheck.checks.member_class import class_in_compression
from structcheck.errors import NotCovered
from structcheck.formula import remark
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.section import Section
from structcheck.standards.en1993_1_8 import hollow

GAMMA_M5 = 1.0
"""EN 1993-1-8:2005 Table 2.1, recommended."""
E = 210_000.0

Kind = Literal["tube", "round tube", "plate across", "plate along"]

RANGES: dict[str, tuple[float, float]] = {"plate across": (0.5, 1.0), "round tube": (0.4, 0.8), "tube": (0.25, 1.0)}
"""Width of what stands on a flat face over the face's (Tables 7.8 and 7.13)."""


@record
class Face:
    """One face of a rectangular tube, or a round tube: width b_0, depth h_0 behind it, wall t_0, in mm and MPa.

    alpha  imperfection factor of the tube's buckling curve; None where EN 1993 has no row (US steels)
    """

    b_0: float
    h_0: float
    t_0: float
    f_y0: float
    alpha: float | None
    section: Section

    @property
    def round(self) -> bool:
        """Whether the tube is round."""
        return "D" in self.section.dimensions

    @property
    def gamma(self) -> float:
        """Half the width over the wall."""
        return self.b_0 / (2 * self.t_0)


@record
class Upon:
    """What stands on the face: b_1 across the tube, h_1 along it, wall or plate t_1, in mm and MPa."""

    kind: Kind
    b_1: float
    h_1: float
    t_1: float
    f_y1: float


class Limit(NamedTuple):
    """A resistance in N or N mm and the way of failing."""

    value: float
    mode: str


def face_of(section: Section, steel: Steel, side: Literal["b", "h"] = "b") -> Face:
    """The loaded face of a hollow section: the one b wide (top or bottom) or h wide (a side)."""
    d = section.dimensions
    if section.route not in ("cold formed", "hot finished") or "t" not in d:
        raise NotCovered(f"{section.designation} is not a hollow section")
    f_y0 = steel.f_y(d["t"])
    alpha = None if steel.imperial else 0.21 if section.route == "hot finished" else 0.49
    if "D" in d:
        return Face(d["D"], d["D"], d["t"], f_y0, alpha, section)
    across, deep = ("b", "h") if side == "b" else ("h", "b")
    return Face(d[across], d[deep], d["t"], f_y0, alpha, section)


def force_limits(face: Face, upon: Upon, n: float, *, compression: bool, cross: bool) -> list[Limit]:
    """Every resistance of wall and attachment to a force square to the face.

    n            stress of the face along the tube over f_y0, compression positive
    compression  the force presses
    cross        an equal force acts on the opposite face (an X joint)

    Raises NotCovered outside the ranges of the tables.
    """
    _in_range(face, upon, n)
    if face.round:
        return _round_limits(face, upon, n, cross)
    if upon.kind == "plate along":
        k_m = hollow.chord_stress_factor_plate(n)
        value = hollow.face_failure_longitudinal_plate(k_m, face.f_y0, face.t_0, upon.h_1, face.b_0, upon.t_1, GAMMA_M5)
        return [Limit(value, "face under a plate along the tube, Table 7.13")]
    if upon.kind == "plate across":
        return _plate_limits(face, upon, n, compression, cross)
    return _tube_limits(face, upon, n, compression, cross)


def moment_limits(face: Face, upon: Upon, n: float, W_pl: float, *, cross: bool) -> list[Limit]:
    """Every resistance to the moment of a rectangular tube in the plane of the joint, N mm (Table 7.14).

    W_pl  plastic modulus of the tube upon the face, mm3

    Raises NotCovered for anything else, and outside the ranges.
    """
    if upon.kind != "tube" or face.round:
        raise NotCovered("only the moment of a rectangular tube on a rectangular tube is judged (Table 7.14)")
    _in_range(face, upon, n)
    beta, eta = upon.b_1 / face.b_0, upon.h_1 / face.b_0
    if beta <= 0.85:
        k_n = hollow.chord_stress_factor(n, beta)
        value = hollow.face_failure_in_plane(k_n, face.f_y0, face.t_0, eta, beta, GAMMA_M5, upon.h_1)
        return [Limit(value, "yield lines in the face, Table 7.14")]
    f_yk = (0.8 if cross else 1.0) * face.f_y0
    width = hollow.effective_width(face.b_0, face.t_0, face.f_y0, upon.f_y1, upon.t_1, upon.b_1)
    own = hollow.brace_failure_in_plane(upon.f_y1, W_pl, width, upon.b_1, upon.h_1, upon.t_1, GAMMA_M5)
    return [
        Limit(hollow.side_wall_in_plane(f_yk, face.t_0, upon.h_1, GAMMA_M5), "side walls, Table 7.14"),
        Limit(own, "walls of the tube upon the face, Table 7.14"),
    ]


def _in_range(face: Face, upon: Upon, n: float) -> None:
    """Raise NotCovered outside the ranges of validity."""
    if not 2.5 <= face.t_0 <= 25:
        raise NotCovered(f"a wall of {face.t_0:g} mm is outside 2.5 to 25 mm (EN 1993-1-8 7.1.1)")
    if upon.kind in ("tube", "round tube") and upon.t_1 < 2.5:
        raise NotCovered(f"a wall of {upon.t_1:g} mm is under 2.5 mm (EN 1993-1-8 7.1.1)")
    if max(face.f_y0, upon.f_y1) > 460:
        raise NotCovered("a yield strength above 460 MPa is outside EN 1993-1-8 7.1.1")
    if n > 0 and class_in_compression(face.section, face.f_y0).number > 2:
        raise NotCovered(f"{face.section.designation} in compression is not class 1 or 2 (EN 1993-1-8 Table 7.8)")
    if face.round:
        _round_range(face, upon)
    else:
        _flat_range(face, upon)


def _flat_range(face: Face, upon: Upon) -> None:
    slim, beta = max(face.b_0, face.h_0) / face.t_0, upon.b_1 / face.b_0
    most = 30.0 if upon.kind.startswith("plate") else 35.0
    if slim > most:
        raise NotCovered(f"width or depth over wall is {slim:.1f}, above {most:g} (EN 1993-1-8 Tables 7.8, 7.13)")
    if not 0.5 <= face.h_0 / face.b_0 <= 2:
        raise NotCovered(f"depth over width of the tube is {face.h_0 / face.b_0:.2f}, outside 0.5 to 2 (Table 7.8)")
    if upon.kind == "plate along":
        if upon.t_1 / face.b_0 > 0.2:
            raise NotCovered(f"plate thickness over face width is {upon.t_1 / face.b_0:.2f}, above 0.2 (Table 7.13)")
        return
    least, highest = RANGES[upon.kind]
    if not least <= beta <= highest:
        raise NotCovered(
            f"width of what stands on the face over the face's is {beta:.2f}, outside {least:g} to {highest:g} "
            "(EN 1993-1-8 Tables 7.8, 7.13)"
        )
    if upon.kind == "tube" and not 0.5 <= upon.h_1 / upon.b_1 <= 2:
        raise NotCovered(f"length over width upon the face is {upon.h_1 / upon.b_1:.2f}, outside 0.5 to 2 (Table 7.8)")
    slimmest = {"tube": 35.0, "round tube": 50.0}.get(upon.kind, math.inf)
    if max(upon.b_1, upon.h_1) / upon.t_1 > slimmest:
        raise NotCovered(f"the tube upon the face is thinner than 1/{slimmest:g} of its width (EN 1993-1-8 Table 7.8)")


def _round_range(face: Face, upon: Upon) -> None:
    if upon.kind != "round tube":
        raise NotCovered("only a round tube on a round tube is judged (EN 1993-1-8 Table 7.2)")
    if not (10 <= face.b_0 / face.t_0 <= 40 and 10 <= upon.b_1 / upon.t_1 <= 50):
        raise NotCovered("diameter over wall is outside 10 to 40 (below) or 10 to 50 (upon it): EN 1993-1-8 Table 7.1")
    if not 0.2 <= upon.b_1 / face.b_0 <= 1:
        raise NotCovered(f"the diameters' ratio is {upon.b_1 / face.b_0:.2f}, outside 0.2 to 1 (EN 1993-1-8 Table 7.1)")


def _round_limits(face: Face, upon: Upon, n: float, cross: bool) -> list[Limit]:
    beta, k_p = upon.b_1 / face.b_0, hollow.round_chord_stress_factor(n)
    if cross:
        value = hollow.round_face_failure_x(k_p, face.f_y0, face.t_0, beta, GAMMA_M5)
    else:
        value = hollow.round_face_failure_t(k_p, face.f_y0, face.t_0, beta, GAMMA_M5, face.gamma)
    limits = [Limit(value, "wall of the round tube, Table 7.2")]
    if upon.b_1 <= face.b_0 - 2 * face.t_0:
        punching = hollow.round_punching_shear(face.f_y0, face.t_0, upon.b_1, GAMMA_M5)
        limits.append(Limit(punching, "punching shear, Table 7.2"))
    return limits


def _wall_strength(face: Face, compression: bool, cross: bool) -> float:
    """f_b of Table 7.11: yield in tension, less for buckling of the side wall in compression."""
    if not compression:
        return face.f_y0
    if face.alpha is None:
        raise NotCovered("no buckling curve is assumed for a side wall of US steel")
    lambda_bar = hollow.side_wall_slenderness(face.h_0, face.t_0, E, face.f_y0)
    chi = hollow.side_wall_buckling_factor(max(lambda_bar, 0.2), face.alpha)
    return (0.8 if cross else 1.0) * chi * face.f_y0


def _tube_limits(face: Face, upon: Upon, n: float, compression: bool, cross: bool) -> list[Limit]:
    beta, eta = upon.b_1 / face.b_0, upon.h_1 / face.b_0
    share = math.pi / 4 if upon.kind == "round tube" else 1.0
    k_n = hollow.chord_stress_factor(n, beta)
    if beta <= 0.85:
        value = hollow.face_failure(k_n, face.f_y0, face.t_0, eta, beta, GAMMA_M5)
        return [Limit(share * value, "yield lines in the face, Table 7.11")]
    remark("between beta 0.85 and 1 a straight line joins the resistances of face and side walls", "Table 7.11")
    edge = hollow.face_failure(k_n, face.f_y0, face.t_0, eta, 0.85, GAMMA_M5)
    walls = hollow.side_wall_failure(k_n, _wall_strength(face, compression, cross), face.t_0, upon.h_1, GAMMA_M5)
    width = hollow.effective_width(face.b_0, face.t_0, face.f_y0, upon.f_y1, upon.t_1, upon.b_1)
    own = hollow.brace_failure(upon.f_y1, upon.t_1, upon.h_1, width, GAMMA_M5)
    limits = [
        Limit(edge + (beta - 0.85) / 0.15 * (walls - edge), "face and side walls, Table 7.11"),
        Limit(own, "walls of the tube upon the face, Table 7.11"),
    ]
    if upon.b_1 <= face.b_0 - 2 * face.t_0:
        punched = hollow.punching_width(face.b_0, face.t_0, upon.b_1)
        value = hollow.punching_shear(face.f_y0, face.t_0, upon.h_1, punched, GAMMA_M5)
        limits.append(Limit(value, "punching shear, Table 7.11"))
    return limits


def _plate_limits(face: Face, upon: Upon, n: float, compression: bool, cross: bool) -> list[Limit]:
    beta = upon.b_1 / face.b_0
    width = hollow.effective_width(face.b_0, face.t_0, face.f_y0, upon.f_y1, upon.t_1, upon.b_1)
    limits = [Limit(hollow.transverse_plate_failure(upon.f_y1, upon.t_1, width, GAMMA_M5), "plate, Table 7.13")]
    if beta <= 0.85:
        k_m = hollow.chord_stress_factor_plate(n)
        value = hollow.face_failure_transverse_plate(k_m, face.f_y0, face.t_0, beta, GAMMA_M5)
        limits.append(Limit(value, "face under a plate across the tube, Table 7.13"))
    if upon.b_1 >= face.b_0 - 2 * face.t_0:
        # The table crushes the walls at f_y0; pressed, they buckle too, which Table 7.11 says of tubes.
        f_b = _wall_strength(face, compression, cross)
        walls = hollow.side_wall_failure(1.0, f_b, face.t_0, upon.t_1, GAMMA_M5)
        limits.append(Limit(walls, "side walls, Table 7.13"))
    elif beta >= 0.85:
        punched = hollow.punching_width(face.b_0, face.t_0, upon.b_1)
        value = hollow.punching_shear(face.f_y0, face.t_0, upon.t_1, punched, GAMMA_M5)
        limits.append(Limit(value, "punching shear, Table 7.13"))
    return limits
