"""Plates that bend and pry on their bolts: the equivalent T-stub of EN 1993-1-8 6.2.4, row by row and in groups."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import BoltGroup, BoltLoads, pulls
from structcheck.checks.bolts_strength import of_group, require_steel, tension_of_one
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Finding
from structcheck.formula import recording, remark, unrecorded
from structcheck.record import record
from structcheck.standards.en1993_1_8 import tstub as clause

SOURCE = "EN 1993-1-8:2005 6.2.4, Tables 6.2 and 6.4"


@record
class Flange:
    """One flange of a T-stub: thickness, yield strength, bolt to web (m), bolt to edge (e), backing plate."""

    t: float
    f_y: float
    m: float
    e: float
    backing: float = 0.0

    @property
    def n(self) -> float:
        """Bolt to the line on which the flange presses."""
        return clause.prying_lever(self.e, self.m)


@record
class Stub:
    """What a row or a group of rows bears: the force, the mode that governs, and the longest bolt that still pries."""

    resistance: float
    mode: str
    longest_bolt: float


def lengths(flange: Flange, ends: tuple[float | None, float | None], steps: Sequence[float]) -> tuple[float, float]:
    """Effective lengths (circular, other) of neighbouring rows `steps` apart.

    ends   from the first and the last of these rows to a free end; None where more rows or material follow
    steps  distances between the rows, empty for a row alone
    """
    m, e = flange.m, flange.e
    if not steps:
        return _alone(flange, ends)
    circular = other = 0.0
    for end, step in ((ends[0], steps[0]), (ends[1], steps[-1])):
        if end is None:
            circular += np.pi * m + step
            other += 2 * m + 0.625 * e + 0.5 * step
        else:
            circular += clause.end_in_group_circular(m, step, end)
            other += clause.end_in_group_other(m, e, step, end)
    for before, after in pairwise(steps):
        circular += clause.inner_in_group_circular((before + after) / 2)
        other += clause.inner_in_group_other((before + after) / 2)
    return circular, other


def _alone(flange: Flange, ends: tuple[float | None, float | None]) -> tuple[float, float]:
    m, e = flange.m, flange.e
    free = [end for end in ends if end is not None]
    circular, other = clause.alone_circular(m), clause.alone_other(m, e)
    for end in free:
        circular = min(circular, clause.end_alone_circular(m, end))
        other = min(other, clause.end_alone_other(m, e, end))
    if len(free) == 2:
        # Between two free ends a straight line across the whole flange is a pattern too.
        circular, other = min(circular, 2 * sum(free)), min(other, sum(free))
    return circular, other


def beside_stiffener(flange: Flange, m_2: float) -> float:
    """What a row gains in its other pattern from a stiffener at m_2, mm: alpha of figure 6.11 by bisection."""
    m, e = flange.m, flange.e
    lambda_1, lambda_2 = clause.stiffened_position(m, m, e), clause.stiffened_position(max(m_2, 0.0), m, e)

    def curve(alpha: float) -> float:
        limit = clause.stiffened_far(alpha)
        return limit if lambda_2 >= alpha * limit / 2 else clause.stiffened_near(alpha, limit, lambda_2)

    low, high = ALPHA
    with unrecorded():
        if curve(low) < lambda_1:
            return 0.0
        for _ in range(40):
            middle = (low + high) / 2
            low, high = (middle, high) if curve(middle) >= lambda_1 else (low, middle)
    remark(f"alpha {low:.3g} at lambda_1 {lambda_1:.3g}, lambda_2 {lambda_2:.3g}", "EN 1993-1-8:2005 figure 6.11")
    return max(clause.gained_beside_stiffener(low, m, e), 0.0)


def stub(
    flange: Flange, lengths_of: tuple[float, float], bolts: float, rows: int, basis: Basis, *, A_s: float, bolt: float
) -> Stub:
    """Resistance of a T-stub.

    lengths_of  effective lengths, circular and other
    bolts       sum of F_t,Rd of its bolts
    A_s         stress area of one bolt
    bolt        length of the bolt L_b; nothing where it is not stated
    """
    circular, other = lengths_of
    first = min(circular, other)
    M_1 = clause.plastic_moment(first, flange.t, flange.f_y, basis.gamma_M0)
    M_2 = clause.plastic_moment(other, flange.t, flange.f_y, basis.gamma_M0)
    longest = clause.longest_bolt_with_prying(flange.m, A_s, rows, first, flange.t)
    if bolt > longest:
        modes = [(clause.mode_without_prying(M_1, flange.m), "the plate yields, long bolts do not let it pry")]
    else:
        M_bp = clause.plastic_moment(first, flange.backing, flange.f_y, basis.gamma_M0)
        modes = [
            (clause.mode_1(M_1, M_bp, flange.m), "mode 1, the plate yields"),
            (clause.mode_2(M_2, flange.n, bolts, flange.m), "mode 2, the plate yields and bolts fail"),
        ]
    resistance, mode = min([*modes, (bolts, "mode 3, bolts fail")])
    return Stub(resistance, mode, longest)


def prying(part: BoltGroup, loads: BoltLoads, basis: Basis) -> Finding:
    """The plate under the heads as a T-stub pulled between two columns: every row, and every group of rows."""
    pull = pulls(part, loads)
    # Where one column is pulled harder both sides of the web are taken to be.
    by_row = [2 * float(pull[np.abs(part.positions[:, 1] - y) < 1e-6].max()) for y in _rows(part)]
    ratios = []
    for first, last, made in _groups(part, basis):
        force = sum(by_row[first : last + 1])
        count = last - first + 1
        rows = f"row {first + 1}" if count == 1 else f"rows {first + 1} to {last + 1}"
        ratios.append((force / made.resistance, f"{rows}: {made.mode}"))
    ratio, reason = max(ratios)
    return of_group(part, "prying", loads, abs(loads.tension), ratio, SOURCE, reason)


def bending_stress(part: BoltGroup, loads: BoltLoads) -> float:
    """Elastic bending stress of the plate at the web, held fast at web and bolt alike: half of force times lever.

    Nothing where no lever is stated: then prying is not checked either.
    """
    if part.lever is None or not loads.pulled:
        return 0.0
    if "bent width" not in part.known or recording():
        part.known["bent width"] = _bent_width(part)
    width = part.known["bent width"]
    return 6 * float(np.max(pulls(part, loads))) * part.lever / 2 / (width * part.thinnest**2)


def _bent_width(part: BoltGroup) -> float:
    """Width of the plate that the hardest pulled row bends, mm."""
    y = _rows(part)
    flange = Flange(part.thinnest, part.steel.f_y(part.thinnest), part.lever, part.nearer_edge)
    ends = part.end if part.far_end is None else part.far_end, part.end
    if len(y) == 1:
        return lengths(flange, ends, ())[1]
    steps = np.diff(y)
    shares = float(steps.min()), ends[0] + steps[0] / 2, ends[1] + steps[-1] / 2
    return min(lengths(flange, (None, None), ())[1], *shares)


def _rows(part: BoltGroup) -> np.ndarray:
    """y of the rows of a plate that can be a T-stub. Raises NotCovered where it is none."""
    if part.lever is None:
        raise NotCovered("`lever` is not stated: bolt to the face of the web or weld that pulls between two columns")
    if part.edge is None or part.end is None:
        raise NotCovered("`edge` and `end` are needed: the plate that bends and pries is not known without them")
    if part.lines is None or len(part.lines[0]) != 2:
        raise NotCovered("a T-stub has two columns of bolts, one on each side of the web that pulls")
    require_steel(part)
    return part.lines[1]


def _groups(part: BoltGroup, basis: Basis) -> list[tuple[int, int, Stub]]:
    """First and last row of every group of rows, and its T-stub; worked out once for all loads."""
    asked = "stubs", basis
    if asked not in part.known or recording():
        part.known[asked] = _all_groups(part, basis)
    return part.known[asked]


def _all_groups(part: BoltGroup, basis: Basis) -> list[tuple[int, int, Stub]]:
    y = _rows(part)
    flange = Flange(part.thinnest, part.steel.f_y(part.thinnest), part.lever, part.nearer_edge, part.backing)
    steps = [float(step) for step in np.diff(y)]
    ends = part.end if part.far_end is None else part.far_end, part.end
    one = 2 * tension_of_one(part, basis)
    made = []
    for first in range(len(y)):
        for last in range(first, len(y)):
            free = ends[0] if first == 0 else None, ends[1] if last == len(y) - 1 else None
            rows = last - first + 1
            size = lengths(flange, free, steps[first:last])
            made.append((first, last, _stub_of(part, flange, size, rows, one * rows, basis)))
    return made


def _stub_of(part: BoltGroup, flange: Flange, size: tuple[float, float], rows: int, bolts: float, basis: Basis) -> Stub:
    bolt = 0.0 if part.grip is None else part.grip + (HEAD + NUT) / 2 * part.size.d
    return stub(flange, size, bolts, rows, basis, A_s=part.size.A_s, bolt=bolt)


ALPHA = 4.45, 8.0
"""The curves of figure 6.11."""
HEAD, NUT = 0.63, 0.9
"""Heights of head and nut over the diameter, ISO 4014 and ISO 4032, rounded up."""


def assumptions(part: BoltGroup, basis: Basis) -> tuple[Assumption, ...]:
    """What the T-stub takes for granted."""
    try:
        shortest = min(made.longest_bolt for _, _, made in _groups(part, basis))
    except NotCovered:
        return ()
    texts = ["the part the plate is bolted to is no weaker in bending than the plate"]
    if part.grip is None:
        grip = shortest - (HEAD + NUT) / 2 * part.size.d
        texts.append(f"plates and washers between head and nut are at most {max(grip, 0):.0f} mm; else state `grip`")
    return tuple(Assumption(part.name, text) for text in texts)
