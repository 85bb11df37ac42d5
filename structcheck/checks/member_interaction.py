"""Bending, shear and axial force together (EN 1993-1-1 6.2.8 to 6.2.10) as the factor by which all can grow."""

from collections.abc import Callable
from math import inf
from typing import Any

import numpy as np

from structcheck.analysis.load_factor import load_factor
from structcheck.checks.member_class import SectionClass, section_class
from structcheck.checks.member_effective import effective, worst_moduli
from structcheck.checks.member_forms import Form, form, shear_modulus_share
from structcheck.checks.member_stress import Station
from structcheck.formula import remembered, unrecorded
from structcheck.maths import minimum, where
from structcheck.record import record
from structcheck.standards.en1993_1_1 import cross_section as code

LEAST_SHARE = {"i": 0.2, "hollow": 0.0}
"""N_Ed / N_Rd up to which less axial force never asks for more of a section bent both ways (6.2.9.1(6))."""
LAST_OF_EXPONENT = 0.94
"""Axial share beyond which the exponent of a hollow section stays at 6: its formula has no value from 0.9407 up."""


@record
class Capacity:
    """Resistances of the cross-section of all pieces by one class of section, N and N mm.

    N                 to tension, and to compression but in class 4
    N_c               to compression; with it in class 4 the moments N e_y about z and N e_z about y
    share_y, share_z  share of M_y, M_z that high shear takes away
    web_y, web_z      share of the area that bears a shear along y, z
    """

    number: Any
    N: Any
    N_c: Any
    V_y: Any
    V_z: Any
    M_y: Any
    M_z: Any
    share_y: Any
    share_z: Any
    web_y: Any
    web_z: Any
    e_y: float = 0.0
    e_z: float = 0.0


def capacity(
    section: Any, f_y: Any, number: Any, pieces: int, gamma_M0: float, eta: float, axes: str = "yz"
) -> Capacity:
    """Resistances by class: of a section, or in classes 1 to 3 of a sweep of sizes (arrays).

    axes  those whose bending resistance is wanted; nan about the other

    In class 4 bending takes the effective section of the worse sense, compression that of compression alone.
    """
    N = pieces * code.plastic_axial_resistance(section.A, f_y, gamma_M0)
    V_y, V_z = (pieces * code.plastic_shear_resistance(section.shear_area(axis, eta), f_y, gamma_M0) for axis in "yz")
    shares = [shear_modulus_share(section, axis, number) if axis in axes else np.nan for axis in "yz"]
    shares += [section.shear_area(axis) / section.A for axis in "yz"]
    if np.ndim(number) == 0 and number == 4:
        W_y, W_z, _ = worst_moduli(section, f_y)
        M_y, M_z = (pieces * code.effective_bending_resistance(W, f_y, gamma_M0) for W in (W_y, W_z))
        pressed = effective(section, f_y, N=1.0)
        N_c = pieces * code.effective_axial_resistance(pressed.A, f_y, gamma_M0)
        return Capacity(number, N, N_c, V_y, V_z, M_y, M_z, *shares, abs(pressed.e_y), abs(pressed.e_z))
    plastic = number <= 2

    def bending(W_pl: Any, W_el: Any) -> Any:
        M_pl = code.plastic_bending_resistance(W_pl, f_y, gamma_M0)
        return pieces * where(plastic, M_pl, code.elastic_bending_resistance(W_el, f_y, gamma_M0))

    M_y = bending(section.Wpl_y, section.Wel_y) if "y" in axes else np.nan
    M_z = bending(section.Wpl_z, section.Wel_z) if "z" in axes else np.nan
    return Capacity(number, N, N, V_y, V_z, M_y, M_z, *shares)


@remembered
def capacity_of(section: Any, f_y: float, number: int, pieces: int, gamma_M0: float, eta: float) -> Capacity:
    """The `capacity` of one section, kept."""
    return capacity(section, f_y, number, pieces, gamma_M0, eta)


def bending_shear_factor(m: Any, v: Any, share: Any) -> Any:
    """Factor by which M and V can grow together under 6.2.8, one axis; numbers or arrays.

    m, v   M_Ed / M_c,Rd and V_Ed / V_pl,Rd
    share  share of M_c,Rd lost as V nears V_pl,Rd

    Solves  k m + share (2 k v - 1)^2 = 1  for k where k v > 1/2; else k = 1 / m. Never beyond k v = 1.
    """
    if not np.ndim(m) and not np.ndim(v) and 2 * v <= m:
        return 1 / m if m > 0 else inf
    m, v, share = (np.asarray(value, float) for value in (m, v, share))
    with np.errstate(divide="ignore", invalid="ignore"):
        alone, low = np.where(m > 0, 1 / m, np.inf), 2 * v <= m
        if low.all():
            return alone
        # a k^2 + b k + c = 0 with c <= 0: one root is not negative. Written so that nothing cancels.
        a, b, c = 4 * share * v * v, m - 4 * share * v, share - 1.0
        root = np.sqrt(np.maximum(b * b - 4 * a * c, 0.0))
        grown = np.where(b > 0, -2 * c / (b + root), (root - b) / (2 * a))
        grown = np.where((m == 0) & (share == 0), np.inf, grown)  # no moment, and none the shear could take
        return np.where(low, alone, np.minimum(grown, np.where(v > 0, 1 / v, np.inf)))


def clause_bending_shear_ratio(M: float, v: float, M_c: float, share: float) -> float:
    """M_Ed over the resistance left by the shear v = V_Ed / V_pl,Rd as it stands (6.2.8)."""
    if v > 1:
        return np.inf
    rho = float(code.shear_reduction(v, 1.0)) if v > 0.5 else 0.0
    left = M_c * (1 - share * rho)
    return M / left if left > 0 else np.inf


@record
class Combined:
    """Bending with axial force at a station: the factor, the clause's ratio as it stands, and the class used."""

    factor: float
    clause_ratio: float
    classified: SectionClass


def combined(
    section: Any,
    f_y: float,
    station: Station,
    pieces: int,
    resistances: Callable[[int], Capacity],
    plastic: float | None = None,
) -> Combined:
    """6.2.9 with 6.2.10 at one station, with the resistances of all pieces by class.

    The class is that at the force the section can reach, so that doubling the forces doubles the utilisation. Tension
    is not let better the class, so that more of it never helps.

    plastic  the `factor_in_class` 1 of it, where that was found already
    """

    def classified(k: float) -> SectionClass:
        return section_class(section, f_y, N=-k * station.N / pieces, M_y=k * station.M_y, M_z=k * station.M_z)

    def as_written(able: Capacity) -> float:
        return _ratio(section, able, station, 1.0, hardened=False)

    first = resistances(1)
    plastic = factor_in_class(section, first, station) if plastic is None else plastic
    worse = classified(plastic)
    if worse.number <= 2:
        return Combined(plastic, as_written(first), worse)
    # Compression spoils the class as it grows: up to the turning factor the section is still plastic.
    turning = _turning_factor(lambda k: classified(k).number <= 2, plastic)
    able = resistances(worse.number)
    elastic = factor_in_class(section, able, station)
    as_it_stands = as_written(first if turning >= 1 else able)
    if turning > elastic:
        return Combined(turning, as_it_stands, classified(turning))
    return Combined(elastic, as_it_stands, worse)


def factor_in_class(section: Any, able: Capacity, station: Station) -> float:
    """The factor by which a station's forces can grow together by the resistances of one class."""
    return load_factor(lambda k: _ratio(section, able, station, k), _greatest(able, station))


def _turning_factor(good: Callable[[float], bool], end: float) -> float:
    low, high = 0.0, end
    with unrecorded():
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if good(middle) else (low, middle)
    return low


def _greatest(able: Capacity, station: Station) -> float:
    most = max(
        abs(station.N) / (able.N if station.N >= 0 else able.N_c),
        abs(station.M_y) / able.M_y,
        abs(station.M_z) / able.M_z,
        abs(station.V_y) / able.V_y,
        abs(station.V_z) / able.V_z,
    )
    return 1 / float(most) if most > 0 else inf


def _ratio(section: Any, able: Capacity, station: Station, k: float, hardened: bool = True) -> float:
    """The clause's ratio with all forces k times as great; infinite where nothing is left.

    hardened  with no less axial force asking for more (`LEAST_SHARE`); else as the clause is written
    """
    N, M_y, M_z = k * abs(station.N), k * abs(station.M_y), k * abs(station.M_z)
    N_Rd, M_y_Rd, M_z_Rd = able.N if station.N >= 0 else able.N_c, able.M_y, able.M_z
    rho_y, rho_z = _rho(k * abs(station.V_y), able.V_y), _rho(k * abs(station.V_z), able.V_z)
    if rho_y or rho_z:
        if max(rho_y, rho_z) > 1:
            return inf
        # 6.2.10: the strength over the shear area is reduced, in the axial resistance too.
        N_Rd *= 1 - min(rho_y * able.web_y + rho_z * able.web_z, 1.0)
        M_y_Rd, M_z_Rd = M_y_Rd * (1 - able.share_y * rho_z), M_z_Rd * (1 - able.share_z * rho_y)
    if station.N < 0:
        M_y, M_z = M_y + N * able.e_z, M_z + N * able.e_y
    if min(N_Rd, M_y_Rd, M_z_Rd) <= 0:
        return inf
    if able.number >= 3:
        return float(code.linear_ratio(N, N_Rd, M_y, M_y_Rd, M_z, M_z_Rd))
    return _plastic_ratio(section, form(section), N, N_Rd, M_y, M_y_Rd, M_z, M_z_Rd, hardened)


def _rho(V: float, V_pl: float) -> float:
    if V_pl / 2 >= V:
        return 0.0
    return float(code.shear_reduction(V, V_pl)) if V_pl * (1 + 1e-12) >= V else np.inf


def _plastic_ratio(
    section: Any,
    kind: Form,
    N: float,
    N_Rd: float,
    M_y: float,
    M_y_Rd: float,
    M_z: float,
    M_z_Rd: float,
    hardened: bool,
) -> float:
    shape = getattr(section, "shape", section)
    n = code.axial_share(N, N_Rd)
    if kind not in ("i", "hollow", "rectangle"):
        return float(code.linear_ratio(N, N_Rd, M_y, M_y_Rd, M_z, M_z_Rd))
    if n >= 1:
        return np.inf
    ratio = _at_share(shape, section.A, kind, n, M_y, M_y_Rd, M_z, M_z_Rd)
    least = LEAST_SHARE.get(kind, n)
    if hardened and M_y and M_z and n > least:
        # The exponents of (6.41) grow with n, and so a little more axial force could help: it is not let.
        with unrecorded():
            ratio = max(ratio, _at_share(shape, section.A, kind, least, M_y, M_y_Rd, M_z, M_z_Rd))
    return ratio


def _at_share(
    shape: Any, A: float, kind: Form, n: float, M_y: float, M_y_Rd: float, M_z: float, M_z_Rd: float
) -> float:
    """The clause's ratio of bending about one axis or both at the axial share n."""
    left_y = _left_about_y(shape, A, kind, n, M_y_Rd) if M_y or not M_z else inf
    left_z = _left_about_z(shape, A, kind, n, M_z_Rd) if M_z else inf
    if min(left_y, left_z) <= 0:
        return inf  # n is a hair below 1
    if not (M_y and M_z):
        return float(M_z / left_z if M_z else M_y / left_y)
    alpha, beta = _exponents(kind, n)
    return float(code.biaxial_ratio(M_y, left_y, alpha, M_z, left_z, beta))


def _left_about_y(shape: Any, A: float, kind: Form, n: Any, M_y_Rd: Any) -> Any:
    """Bending resistance about y left by the axial share n; numbers or arrays."""
    if kind == "i":
        return code.bending_resistance_with_axial(M_y_Rd, n, code.web_share_of_i(A, shape.b, shape.tf))
    if kind == "hollow":
        return code.bending_resistance_with_axial(M_y_Rd, n, code.web_share_of_hollow(A, shape.b, shape.t))
    return code.plate_bending_resistance_with_axial(M_y_Rd, n)


def _left_about_z(shape: Any, A: float, kind: Form, n: Any, M_z_Rd: Any) -> Any:
    """Bending resistance about z left by the axial share n; numbers or arrays."""
    if kind == "i":
        return code.weak_bending_resistance_with_axial(M_z_Rd, n, code.web_share_of_i(A, shape.b, shape.tf))
    if kind == "hollow":
        return code.bending_resistance_with_axial(M_z_Rd, n, code.flange_share_of_hollow(A, shape.h, shape.t))
    return code.plate_bending_resistance_with_axial(M_z_Rd, n)


def _exponents(kind: Form, n: Any) -> tuple[Any, Any]:
    """Exponents of (6.41) at the axial share n; numbers or arrays."""
    if kind == "i":
        return 2.0, code.i_exponent(n)
    if kind == "hollow":
        exponent = code.hollow_exponent(minimum(n, LAST_OF_EXPONENT))
        return exponent, exponent
    return 1.0, 1.0


def plastic_ratios(section: Any, n: np.ndarray, m_y: np.ndarray, m_z: np.ndarray) -> np.ndarray:
    """The ratio of 6.2.9.1 for many shares of the resistances; that of the axial force short of 1."""
    shape, A, kind = getattr(section, "shape", section), section.A, form(section)
    if kind not in ("i", "hollow", "rectangle"):
        return n + m_y + m_z

    def at(share: Any) -> np.ndarray:
        y = m_y / _left_about_y(shape, A, kind, share, 1.0)
        if not bent_across:
            return y
        z, (alpha, beta) = m_z / _left_about_z(shape, A, kind, share, 1.0), _exponents(kind, share)
        return np.where(m_z == 0, y, np.where(m_y == 0, z, y**alpha + z**beta))

    bent_across, least = bool(m_z.any()), LEAST_SHARE.get(kind)
    ratio = at(n)
    if least is None or not bent_across:
        return ratio
    return np.where((n > least) & (m_y > 0) & (m_z > 0), np.maximum(ratio, at(least)), ratio)
