"""Nominal elastic stress of a member's cross-section: what `yield at greatest force` and times on yield rest on."""

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

import numpy as np

from structcheck.analysis.falling import falling_root
from structcheck.analysis.load_factor import least_load_factor
from structcheck.checks.angle_stress import angle_points
from structcheck.checks.basis import Case, Limit
from structcheck.checks.member_forms import closed, form
from structcheck.checks.member_torsion import warping
from structcheck.errors import NotCovered
from structcheck.formula import remembered, unrecorded
from structcheck.maths import first_of_greatest
from structcheck.record import record
from structcheck.standards.en1993_1_1.cross_section import von_mises_stress
from structcheck.standards.handbook_torsion import warping_shear_stress, warping_stress


class Station(NamedTuple):
    """Internal forces at one place in one case, of all pieces together, in N and N mm.

    where     the place, for the finding ("x = 450 mm")
    N         axial force, tension positive
    V_y, V_z  shear along the axes y and z
    T         torque about the shear centre; of an open section only Saint-Venant's part
    T_w, B    of an open section: warping torque, and bimoment in N mm2
    to_buckling  factor on all of these at which the member buckles sideways: twist grows as it nears
    shared    T and T_w are those of the whole member with its ends, where nothing warps too
    M_y, M_z  bending moments; positive compresses the top (z) and the right (y)
    """

    case: Case
    where: str
    N: float = 0.0
    V_y: float = 0.0
    V_z: float = 0.0
    T: float = 0.0
    M_y: float = 0.0
    M_z: float = 0.0
    T_w: float = 0.0
    B: float = 0.0
    to_buckling: float = np.inf
    shared: bool = False

    @property
    def warping_unknown(self) -> bool:
        """A torque acts and nobody has found what part of it warps an open section."""
        return bool(self.T) and not (self.T_w or self.B or self.shared)


def along_member(stations: Sequence[Station]) -> list[Station]:
    """Of each ultimate case the hardest push and the greatest moment about each axis, wherever each stands (6.3.3(4)).

    Moments without sign; the place is that of the moment about y.
    """
    of_case: dict[Case, list[Station]] = {}
    for station in stations:
        if station.case.limit == "ultimate":
            of_case.setdefault(station.case, []).append(station)
    found = []
    for case, own in of_case.items():
        M_y, M_z = [abs(s.M_y) for s in own], [abs(s.M_z) for s in own]
        place = own[first_of_greatest(M_y)].where
        found.append(Station(case, place, min(s.N for s in own), M_y=max(M_y), M_z=max(M_z)))
    return found


def forces_of(stations: Sequence[Station], pieces: int = 1) -> dict[str, np.ndarray]:
    """Each internal force of one piece at all stations, by its name."""
    return dict(zip(_FORCES, np.array([station[_FIRST:_LAST] for station in stations]).T / pieces, strict=True))


_FIRST, _LAST = Station._fields.index("N"), Station._fields.index("B") + 1
_FORCES = Station._fields[_FIRST:_LAST]


WARPS = "torsion of an open section warps it: the member's length and ends decide, not this section"


class Points(NamedTuple):
    """Stresses of one piece at the fibres looked at, MPa; arrays of (fibres, ...) for forces of (...)."""

    names: Sequence[str]
    sigma: Any
    tau: Any


@record
class Stress:
    """The greatest equivalent stress of a member, MPa, and where it stands."""

    value: float
    fibre: str
    station: Station


class Elastic:
    """The greatest elastic stress of a member's stations at rated and at greatest force, found once for all who ask."""

    def __init__(self, section: Any, stations: Sequence[Station], pieces: int) -> None:
        self.section = section
        self.pieces = pieces
        self._stations = stations
        self._found: dict[Limit, Stress | None] = {}

    def greatest(self, limit: Limit) -> Stress | None:
        """That of the stations judged by this limit; None where there are none. Raises NotCovered."""
        if limit not in self._found:
            asked = [s for s in self._stations if s.case.limit == limit]
            self._found[limit] = greatest_stress(self.section, asked, self.pieces) if asked else None
        return self._found[limit]


def greatest_stress(section: Any, stations: Sequence[Station], pieces: int = 1) -> Stress:
    """The greatest elastic von Mises stress of the stations, the forces shared equally by the pieces.

    Raises NotCovered for a skew section other than an angle in bending, and where an open section is twisted but
    nobody has found how it warps.
    """
    if not closed(section) and any(s.warping_unknown for s in stations):
        raise NotCovered(WARPS)
    names, table = stresses(section, **forces_of(stations, pieces))
    fibre, place = divmod(first_of_greatest(table.ravel()), len(stations))
    return Stress(float(table[fibre, place]), names[fibre], stations[place])


def stresses(
    section: Any,
    *,
    N: Any = 0.0,
    V_y: Any = 0.0,
    V_z: Any = 0.0,
    T: Any = 0.0,
    M_y: Any = 0.0,
    M_z: Any = 0.0,
    T_w: Any = 0.0,
    B: Any = 0.0,
) -> tuple[Sequence[str], Any]:
    """(fibres, von Mises stresses in MPa) of one piece; forces as numbers or arrays, sections or a sweep of sizes.

    Where effects meet whose greatest values stand at different points they are added, which is safe.
    """
    sigma, tau = torsion_stresses(section, T, T_w, B)
    points = straight_stresses(section, N, V_y, V_z, M_y, M_z)
    return points.names, von_mises_stress(points.sigma + sigma, points.tau + tau)


def torsion_stresses(section: Any, T: Any, T_w: Any, B: Any) -> tuple[Any, Any]:
    """Greatest normal and shear stress of torsion in one piece, MPa."""
    T, T_w, B = np.abs(T), np.abs(T_w), np.abs(B)
    tau = T / section.Wt if T.any() else 0.0
    if not (B.any() or T_w.any()):
        return 0.0, tau
    warped = warping(section)
    tau = tau + warping_shear_stress(T_w, warped.S, section.Iw, warped.t)
    return warping_stress(B, warped.omega, section.Iw), tau


def straight_stresses(section: Any, N: Any, V_y: Any, V_z: Any, M_y: Any, M_z: Any) -> Points:
    """Normal and shear stresses of one piece without torsion."""
    N, V_y, V_z, M_y, M_z = (np.abs(force) for force in (N, V_y, V_z, M_y, M_z))
    # The pull runs through the centroid of the whole section; holes to one side move that of what is left.
    M_y = M_y + N * getattr(section, "shift", 0.0)
    M_z = M_z + N * getattr(section, "shift_across", 0.0)
    if form(section) == "angle":
        return _stacked(angle_points(section, N, V_y, V_z, M_y, M_z))
    drilled = hasattr(section, "shift_across")  # holes make a tube's axes unlike one another
    if form(section) in ("tube", "round") and not drilled:
        M_y, M_z, V_z, V_y = np.hypot(M_y, M_z), _NONE, np.hypot(V_y, V_z), _NONE
    points = _points(section, "y", M_y, section.Iy, V_z)
    if M_z.any() or V_y.any():
        across = _points(section, "z", M_z, section.Iz, V_y)
        points = _beside(points, across) if M_y.any() or V_z.any() else across
    return points._replace(sigma=N / section.A + points.sigma)


_NONE = np.float64(0.0)


def _stacked(points: Sequence[tuple[str, Any, Any]]) -> Points:
    """Points that were found one by one."""
    names, sigma, tau = zip(*points, strict=True)
    return Points(names, np.array(np.broadcast_arrays(*sigma)), np.array(np.broadcast_arrays(*tau)))


def _points(section: Any, axis: str, M: Any, second_moment: Any, V: Any) -> Points:
    """Bending and shear stress at each fibre about one axis."""
    names, levers, taus = _fibres(section, axis)
    deep = max(M.ndim, V.ndim)
    return Points(names, M * _rows(levers, deep) / second_moment, V * _rows(taus, deep))


@remembered
def _fibres(section: Any, axis: str) -> tuple[Sequence[str], np.ndarray, np.ndarray]:
    """Place, lever and shear stress per unit shear of each fibre; numbers, or rows of a sweep of sizes."""
    fibres = section.fibres(axis)
    names = tuple(f"at the {f.name}" for f in fibres)
    return names, np.array([abs(f.lever) for f in fibres]), np.array([f.tau for f in fibres])


def _rows(table: np.ndarray, deep: int) -> np.ndarray:
    """What each fibre has, for forces in an array of so many axes, the last of them that of the sizes of a sweep."""
    return table.reshape(table.shape[0], *(1,) * (deep + 1 - table.ndim), *table.shape[1:])


def _beside(along: Points, across: Points) -> Points:
    """The points of either axis with the greatest stresses of the other added."""
    return Points(
        [*along.names, *across.names],
        np.concatenate([along.sigma + across.sigma.max(axis=0), across.sigma + along.sigma.max(axis=0)]),
        np.concatenate([along.tau + across.tau.max(axis=0), across.tau + along.tau.max(axis=0)]),
    )


_Stresses = tuple[Any, Any]


def second_order_factor(
    section: Any,
    f_d: Any,
    k_cr: Any,
    *,
    N: Any = 0.0,
    V_y: Any = 0.0,
    V_z: Any = 0.0,
    T: Any = 0.0,
    M_y: Any = 0.0,
    M_z: Any = 0.0,
    T_w: Any = 0.0,
    B: Any = 0.0,
) -> Any:
    """Factor k on the forces of one piece at which the elastic stress reaches f_d, twist grown by 1 / (1 - k / k_cr).

    f_d     strength, MPa
    k_cr    factor on the same forces at which the member buckles sideways
    forces  as for `stresses`, numbers or arrays

    Infinite where nothing is stressed; else within 1e-12 of the factor without growth.
    """
    twisted = torsion_stresses(section, T, T_w, B)
    bent = straight_stresses(section, N, V_y, V_z, M_y, M_z)[1:]
    with unrecorded(), np.errstate(divide="ignore", invalid="ignore"):
        return _grown_factor(f_d, k_cr, bent, twisted, _first_order(f_d, k_cr, bent, twisted))


def least_second_order_factor(section: Any, f_d: float, k_cr: np.ndarray, **forces: Any) -> tuple[int, float]:
    """(number, factor) of the station whose `second_order_factor` is the least; `k_cr` and `forces` are arrays.

    Twist grown as at the factor without growth is grown too much: what holds more even so cannot be the least.
    """
    twisted = torsion_stresses(section, forces["T"], forces["T_w"], forces["B"])
    bent = straight_stresses(section, *(forces[name] for name in ("N", "V_y", "V_z", "M_y", "M_z")))[1:]
    with unrecorded(), np.errstate(divide="ignore", invalid="ignore"):
        most = _first_order(f_d, k_cr, bent, twisted)
        grown = 1 / np.maximum(1 - most / k_cr, 0.0)
        least = _first_order(f_d, k_cr, bent, (twisted[0] * grown, twisted[1] * grown))
        least = np.where(most < k_cr, least, 0.0)  # at k_cr the twist has no end
        close = np.flatnonzero(~(least > most.min() * (1 + 1e-9))).tolist()
        criteria = [_grown(f_d, float(k_cr[number]), _at(bent, number), _at(twisted, number)) for number in close]
        number, factor = least_load_factor(criteria, most[close].tolist())
    return close[number], factor


def _at(stresses: _Stresses, number: int) -> _Stresses:
    """The stresses at one of many stations; a number is that of them all."""
    sigma, tau = (part[..., number] if np.ndim(part) else part for part in stresses)
    return sigma, tau


def _grown(f_d: float, k_cr: float, bent: _Stresses, twisted: _Stresses) -> Callable[[float], float]:
    """The share of the strength that is used at a factor on the forces, times 1 - k / k_cr and with what that takes."""
    return lambda k: 1 - float(_left(f_d, k_cr, bent, twisted, k)) / f_d


def _first_order(f_d: Any, k_cr: Any, bent: _Stresses, twisted: _Stresses) -> Any:
    """The factor without growth, no more than that of buckling."""
    first = np.max(von_mises_stress(bent[0] + twisted[0], bent[1] + twisted[1]), axis=0)
    return np.minimum(np.where(first > 0, f_d / first, np.inf), k_cr)


def _grown_factor(f_d: Any, k_cr: Any, bent: _Stresses, twisted: _Stresses, most: Any) -> Any:
    endless = ~np.isfinite(most)
    found = falling_root(lambda k: _left(f_d, k_cr, bent, twisted, k), np.where(endless, 0.0, most))
    return np.where(endless, np.inf, found)


def _left(f_d: Any, k_cr: Any, bent: _Stresses, twisted: _Stresses, k: Any) -> Any:
    """Strength less stress, both times 1 - k / k_cr: finite up to k_cr, and falling to the factor sought."""
    (sigma, tau), (sigma_t, tau_t), stays = bent, twisted, 1 - k / k_cr
    return f_d * stays - k * von_mises_stress(sigma * stays + sigma_t, tau * stays + tau_t).max(axis=0)
