"""What the checks of one cross-section share: class, resistances, share of torsion, slender webs."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, NamedTuple

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.member_class import SectionClass, class_in_bending, class_in_compression
from structcheck.checks.member_forms import closed
from structcheck.checks.member_interaction import Capacity, capacity_of
from structcheck.checks.member_shear import SlenderWeb, slender_web
from structcheck.checks.member_stress import WARPS, Station
from structcheck.checks.member_torsion import torsion_share
from structcheck.errors import NotCovered
from structcheck.formula import recording
from structcheck.standards.en1993_1_1.cross_section import plastic_shear_resistance


@dataclass
class Member:
    """What the checks of one cross-section share; the class is found once for each direction of bending.

    bent   the section that bends: `section`, or what holes leave of it
    panel  distance between stiffeners at its supports, mm; None: none stated
    known, able, webs  answers already worked out
    forces   identity of a list of stations -> the list and its internal forces
    used_up  stations, and the factor on the forces of each at which axial force and bending use it up in class 1
    weakest  identities of stations that were compared, and the first of them to yield when twisted
    """

    name: str
    section: Any
    f_y: float
    pieces: int
    basis: Basis
    bent: Any
    panel: float | None = None
    known: dict[tuple[str, bool], tuple[SectionClass, Capacity]] = field(default_factory=dict)
    able: dict[int, Capacity] = field(default_factory=dict)
    webs: dict[str, SlenderWeb | None] = field(default_factory=dict)
    forces: dict[int, tuple[Sequence[Station], dict[str, np.ndarray]]] = field(default_factory=dict)
    used_up: list[tuple[Station, float]] = field(default_factory=list)
    weakest: list[tuple[set[int], "Weakest"]] = field(default_factory=list)

    def about(self, axis: str, M: float) -> tuple[SectionClass, Capacity]:
        """Class and resistances for bending about one axis; not for angles, which bend about both."""
        key = (axis, M >= 0)
        if key not in self.known or recording():
            sign = 1.0 if M >= 0 else -1.0
            classified = class_in_bending(self.section, self.f_y, axis, sign)
            self.known[key] = classified, self.capacity(classified)
        return self.known[key]

    def pressed(self) -> tuple[SectionClass, Capacity]:
        """Class and resistances in uniform compression."""
        key = ("N", True)
        if key not in self.known or recording():
            classified = class_in_compression(self.section, self.f_y)
            number, eta = classified.number, self.basis.eta
            able = capacity_of(self.section, self.f_y, number, self.pieces, self.basis.gamma_M0, eta)
            self.known[key] = classified, able
        return self.known[key]

    def slender(self, axis: str) -> SlenderWeb | None:
        """Its webs along `axis` where they buckle in shear (6.2.6(6)). Raises NotCovered."""
        if axis not in self.webs or recording():
            basis = self.basis
            web = slender_web(self.section, axis, self.f_y, basis.eta, basis.gamma_M1, self.panel)
            if web and axis == "z" and getattr(self.bent, "cuts_web", False):
                raise NotCovered(f"shear buckling of a web with holes is not covered here ({web.text})")
            self.webs[axis] = web
        return self.webs[axis]

    def capacity(self, classified: SectionClass) -> Capacity:
        """Resistances in the class found."""
        return self.resistances(classified.number)

    def resistances(self, number: int) -> Capacity:
        """Resistances in a class."""
        if number not in self.able or recording():
            basis = self.basis
            self.able[number] = capacity_of(self.bent, self.f_y, number, self.pieces, basis.gamma_M0, basis.eta)
        return self.able[number]


class Weakest(NamedTuple):
    """A twisted station that yields first.

    factor        on its forces, by `second_order_factor`
    stress, warp  the elastic stress as it stands, and that of the bimoment alone, MPa
    """

    station: Station
    factor: float
    stress: float
    warp: float


def twisted(station: Station) -> bool:
    """Whether any torsion acts."""
    return bool(station.T or station.T_w or station.B)


def torsion_as_shear(member: Member) -> float:
    """The shear along z that takes as much of the shear strength as a torque that takes all of it, N."""
    A_v = member.section.shear_area("z")
    return member.pieces * float(plastic_shear_resistance(A_v, member.f_y, member.basis.gamma_M0))


def with_torsion_as_shear(member: Member, station: Station) -> Station:
    """The station with its torque's share of the shear strength counted as shear along z, which is safe."""
    if not twisted(station):
        return station
    t = share_of_torsion(member, station)
    return station._replace(V_z=abs(station.V_z) + t * torsion_as_shear(member))


def share_of_torsion(member: Member, station: Station, slender: SlenderWeb | None = None) -> float:
    """Share of the shear strength that torsion takes (`torsion_share`); of a slender web's, more."""
    if slender and not closed(member.section):
        raise NotCovered("torsion of an open section with a web slender in shear is not covered here")
    if not closed(member.section) and station.warping_unknown:
        raise NotCovered(WARPS)
    T, T_w = abs(station.T) / member.pieces, abs(station.T_w) / member.pieces
    share = float(torsion_share(member.section, member.f_y / member.basis.gamma_M0, T, T_w))
    # Round a closed wall the flow of the torque buckles the web as that of the shear does.
    return share * member.basis.gamma_M1 / (member.basis.gamma_M0 * min(slender.chi_w, 1.0)) if slender else share
