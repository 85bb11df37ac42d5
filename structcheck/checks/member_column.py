"""A member in compression, bent or not, as a whole: EN 1993-1-1 6.3.1 and 6.3.3 with Annex B."""

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

import numpy as np

from structcheck.analysis.load_factor import least_load_factor
from structcheck.checks.basis import Basis, Case
from structcheck.checks.member_buckling import Lengths, Mode, modes
from structcheck.checks.member_class import class_in_compression
from structcheck.checks.member_forms import form, require_en1993, yield_strength
from structcheck.checks.member_interaction import capacity_of
from structcheck.checks.member_lateral import Method, Segment, can_buckle, critical_moment, lateral_reduction
from structcheck.errors import NotCovered
from structcheck.findings import Finding, NotNeeded, Outcome, interaction, judged, not_checked
from structcheck.formula import unrecorded
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.standards.en1993_1_1 import interaction as code

HOLLOW = ("hollow", "tube", "box", "round")
"""Forms that take the row of rectangular hollow sections in Table B.1; others that of the I, the safer."""

NEEDED = ("flexural buckling", "buckling with bending")


@record
class Pressed:
    """Compression and the greatest moments of a member in one ultimate case, all pieces together, N and N mm.

    C_my, C_mz, C_mLT  factors of equivalent uniform moment (Table B.3); 1.0 is always safe
    """

    case: Case
    N: float
    M_y: float = 0.0
    M_z: float = 0.0
    C_my: float = 1.0
    C_mz: float = 1.0
    C_mLT: float = 1.0


@record
class Column:
    """What 6.3.3 needs of a member besides its forces.

    segment  for lateral torsional buckling; None: between the places held against twisting, C_1 = 1
    method   of lateral torsional buckling
    """

    lengths: Lengths
    segment: Segment | None = None
    method: Method = "general"


def check_member_column(
    part: str,
    section: Any,
    steel: Steel,
    pieces: int,
    column: Column,
    loads: Sequence[Pressed],
    basis: Basis,
) -> Outcome:
    """Buckling of a member in compression, and with bending; every piece buckles by itself.

    The cross-sections at its ends are judged by `check_member_section`.
    """
    pressed = [load for load in loads if load.N > 0 and load.case.limit == "ultimate"]
    if not pressed:
        reason = "a member in tension does not buckle"
        return Outcome(does_not_apply=tuple(NotNeeded(part, check, reason) for check in NEEDED))
    try:
        require_en1993(section, steel)
        f_y = yield_strength(section, steel)
        ways = modes(section, steel, f_y, column.lengths)
    except NotCovered as reason:
        return Outcome(tuple(not_checked(part, check, str(reason)) for check in NEEDED))
    least = min(ways, key=lambda mode: mode.N_b)
    resistance = pieces * least.N_b / basis.gamma_M1
    most = max(pressed, key=lambda load: load.N)
    alone = judged(part, NEEDED[0], most.case.name, most.N, resistance, "kN", least.source, reason=least.text)
    bent = [p for p in pressed if p.M_y or p.M_z]
    if not bent:
        never = NotNeeded(part, NEEDED[1], "no moment beside the compression")
        return Outcome((alone,), (never,))
    member = _Member(part, section, steel, f_y, pieces, column, ways, basis)
    return Outcome((alone, _interaction(member, bent)))


@record
class _Member:
    name: str
    section: Any
    steel: Steel
    f_y: float
    pieces: int
    column: Column
    ways: tuple[Mode, ...]
    basis: Basis


class Terms(NamedTuple):
    """Ratio of the two equations at one factor on the loads, and the factors in them."""

    eq_61: float
    eq_62: float
    k_yy: float
    k_yz: float
    k_zy: float
    k_zz: float

    @property
    def ratio(self) -> float:
        """The greater of the two: 6.62 can govern with no moment about z."""
        return max(self.eq_61, self.eq_62)


def _interaction(member: _Member, loads: Sequence[Pressed]) -> Finding:
    """The finding of the load that governs."""
    check = NEEDED[1]
    try:
        classified = class_in_compression(member.section, member.f_y)
        terms = _terms_of(member, classified.number)
    except NotCovered as reason:
        return not_checked(member.name, check, str(reason), case=loads[0].case.name)
    criteria = [lambda k, load=load: terms(load, k).ratio for load in loads]
    with unrecorded():
        guess = max(range(len(loads)), key=lambda number: criteria[number](1.0))
    number, factor = least_load_factor(criteria, [_greatest(member, load) for load in loads], guess)
    load = loads[number]
    as_it_stands = terms(load, 1.0)
    governing = "(6.61)" if as_it_stands.eq_61 >= as_it_stands.eq_62 else "(6.62)"
    reason = (
        f"6.61 {as_it_stands.eq_61:.3f}, 6.62 {as_it_stands.eq_62:.3f}; k_yy {as_it_stands.k_yy:.3f}, "
        f"k_zz {as_it_stands.k_zz:.3f}; {classified.text}"
    )
    source = f"{code.CODE} {governing}, Annex B"
    return interaction(
        member.name, check, load.case.name, factor, source, clause_ratio=as_it_stands.ratio, reason=reason
    )


def _terms_of(member: _Member, number: int) -> Callable[[Pressed, float], Terms]:
    """The two equations as a function of a load and the factor on all its forces.

    `number` is the class in compression alone: the safe one for every mixture of N and M.
    """
    section, column, pieces, f_y = member.section, member.column, member.pieces, member.f_y
    gamma_M1 = member.basis.gamma_M1
    able = capacity_of(section, f_y, number, pieces, 1.0, member.basis.eta)
    M_y_Rk, M_z_Rk = float(able.M_y), float(able.M_z)
    about = {mode.about: mode for mode in member.ways}
    if "y" not in about:
        raise NotCovered("compression with bending of an angle is not covered here")
    y, z, twist = about["y"], about["z"], about.get("twist")
    # The lower of flexure and twisting stands in 6.62 (and in 6.61 where twisting is below flexure about y).
    N_y = min(y.N_b, twist.N_b if twist else y.N_b)
    N_z = min(z.N_b, twist.N_b if twist else z.N_b)
    chi_LT = 1.0
    if can_buckle(section):
        segment = column.segment or Segment(column.lengths.twist)
        M_cr = critical_moment(section, segment)
        chi_LT = lateral_reduction(section, member.steel, f_y, M_y_Rk / pieces / f_y, M_cr, column.method).chi
    M_y_b, M_z_b = chi_LT * M_y_Rk / gamma_M1, M_z_Rk / gamma_M1
    lambda_y, lambda_z = y.slenderness, max(z.slenderness, twist.slenderness if twist else 0.0)
    hollow, twists = form(section) in HOLLOW, can_buckle(section)

    def terms(load: Pressed, k: float) -> Terms:
        n_y, n_z = k * load.N * gamma_M1 / (pieces * N_y), k * load.N * gamma_M1 / (pieces * N_z)
        m_y = k * abs(load.M_y) + k * load.N * able.e_z
        m_z = k * abs(load.M_z) + k * load.N * able.e_y
        k_yy, k_zz, k_yz, k_zy = annex_b(load, number, n_y, n_z, lambda_y, lambda_z, hollow=hollow, twists=twists)
        m_y, m_z = m_y / M_y_b, m_z / M_z_b
        return Terms(
            float(code.member_ratio(n_y, k_yy, m_y, k_yz, m_z)),
            float(code.member_ratio(n_z, k_zy, m_y, k_zz, m_z)),
            k_yy,
            k_yz,
            k_zy,
            k_zz,
        )

    return terms


def annex_b(
    load: Pressed, number: int, n_y: float, n_z: float, lambda_y: float, lambda_z: float, *, hollow: bool, twists: bool
) -> tuple[float, float, float, float]:
    """(k_yy, k_zz, k_yz, k_zy) of Tables B.1 and B.2."""
    if number <= 2:
        k_yy = code.plastic_factor(load.C_my, lambda_y, n_y)
        about_z = code.plastic_factor if hollow else code.plastic_factor_weak
        k_zz = about_z(load.C_mz, lambda_z, n_z)
        k_yz, k_zy = 0.6 * k_zz, 0.6 * k_yy
        if twists and lambda_z < 0.4:
            k_zy = code.torsion_factor_stocky(lambda_z, n_z, load.C_mLT)
        elif twists:
            k_zy = code.torsion_factor_plastic(lambda_z, n_z, load.C_mLT)
    else:
        k_yy = code.elastic_factor(load.C_my, lambda_y, n_y)
        k_zz = code.elastic_factor(load.C_mz, lambda_z, n_z)
        k_yz, k_zy = k_zz, 0.8 * k_yy
        if twists:
            k_zy = code.torsion_factor_elastic(lambda_z, n_z, load.C_mLT)
    return float(k_yy), float(k_zz), float(k_yz), float(k_zy)


def _greatest(member: _Member, load: Pressed) -> float:
    """A factor the loads cannot pass: that of compression alone, 6.61 and 6.62 being at least that."""
    least = min(mode.N_b for mode in member.ways) * member.pieces / member.basis.gamma_M1
    return least / load.N if load.N > 0 else np.inf
