"""Rows of an end plate filled from the tension side down, alone and in groups: EN 1993-1-8 6.2.7.2."""

import math
from collections.abc import Callable

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.bolts_prying import HEAD, NUT, Flange, beside_stiffener, lengths, stub
from structcheck.checks.end_plate_part import EndPlate, EndPlateLoads
from structcheck.checks.member_class import class_in_bending
from structcheck.checks.member_interaction import capacity
from structcheck.errors import NotCovered
from structcheck.formula import remembered
from structcheck.record import record
from structcheck.standards.en1993_1_8 import bolts as bolt_clause
from structcheck.standards.en1993_1_8 import column
from structcheck.standards.en1993_1_8 import tstub as clause

DEEP_BEAM, WEB_SHARE = 600.0, 0.2
"""6.2.6.7(1): depth from which the beam's web counts for no more than this share of its compression."""

Force = tuple[float, str]
"""What a part bears in N, and which part it is."""

Group = Callable[[int, int], Force | None]
"""What rows from the first to the last bear together; None where they are no group."""


@record
class AtLimit:
    """How the members are stressed when the joint is used up: it decides what is left of them for the joint.

    pressed  stress pressing along the face bolted to, over its yield strength, at most 1
    sheared  shear of the beam over its plastic resistance
    """

    pressed: float = 0.0
    sheared: float = 0.0


@record
class Bearing:
    """What rows rest on.

    groups  of rows in tension
    sums    what bears all rows of a moment together, in compression or as a panel in shear
    pull    what bears a plain pull beside the rows
    lowest  height below which a row bears no moment
    """

    groups: tuple[Group, ...] = ()
    sums: tuple[Force, ...] = ()
    pull: tuple[Force, ...] = ()
    lowest: float = -math.inf

    def __add__(self, other: "Bearing") -> "Bearing":
        lowest = max(self.lowest, other.lowest)
        return Bearing(self.groups + other.groups, self.sums + other.sums, self.pull + other.pull, lowest)


Judge = Callable[[EndPlate, AtLimit, Basis], Bearing]
"""What the rows rest on in one part of the joint."""


@record
class Rows:
    """What the rows bear, from the tension side down: the force of each row and what limits it."""

    forces: tuple[float, ...]
    limits: tuple[str, ...]
    levers: tuple[float, ...]

    @property
    def moment(self) -> float:
        """Moment resistance."""
        return sum(force * lever for force, lever in zip(self.forces, self.levers, strict=True))


def fill(part: EndPlate, bearing: Bearing, basis: Basis) -> Rows:
    """Row by row from the tension side: alone, with the rows above it, and no more than what bears the sum."""
    forces: list[float] = []
    limits: list[str] = []
    levers = tuple(row - part.centre for row in part.heights)
    strongest = 1.9 * one_bolt(part, basis)
    for row, lever in enumerate(levers):
        if part.heights[row] < max(bearing.lowest, part.centre):
            forces.append(0.0)
            limits.append("too near to what is pressed, counts for nothing")
            continue
        options = [(most - sum(forces), why) for most, why in bearing.sums]
        for group in bearing.groups:
            for first in range(row, -1, -1):
                made = group(first, row)
                if made is None:
                    break
                options.append((made[0] - sum(forces[first:row]), made[1]))
        why = "rows above reach their bolts first, 6.2.7.2(9)"
        above = zip(forces, levers, strict=False)
        options += [(force * lever / arm, why) for force, arm in above if force > strongest]
        force, limit = min(options)
        forces.append(max(force, 0.0))
        limits.append(limit)
    return Rows(tuple(forces), tuple(limits), levers)


def even_pull(part: EndPlate, bearing: Bearing) -> Force:
    """A plain pull, the same on every row: as much as the weakest row or group bears of its share."""
    count = len(part.rows)
    options = list(bearing.pull)
    for group in bearing.groups:
        for first in range(count):
            for last in range(first, count):
                if (made := group(first, last)) is not None:
                    options.append((made[0] * count / (last - first + 1), made[1]))
    return min(options)


@remembered
def moment_borne(part: EndPlate, judge: Judge, state: AtLimit, basis: Basis) -> float:
    """Moment that the rows bear by what is judged."""
    return fill(part, judge(part, state, basis), basis).moment


@remembered
def pull_borne(part: EndPlate, judge: Judge, state: AtLimit, basis: Basis) -> float:
    """Plain pull that they bear."""
    return even_pull(part, judge(part, state, basis))[0]


def share(part: EndPlate, judge: Judge, state: AtLimit, load: EndPlateLoads, basis: Basis) -> float:
    """Moment and pull in linear sum, 6.2.7.1(3)."""
    ratio = 0.0
    for force, borne in ((load.moment, moment_borne), (load.pull, pull_borne)):
        if force:
            most = borne(part, judge, state, basis)
            ratio += force / most if most > 0 else math.inf
    return ratio


def pulls(part: EndPlate, load: EndPlateLoads) -> list[float]:
    """Elastic pull on one bolt of each row without prying, from above.

    The row beside the flange in tension takes all of a moment, or shares it by their levers with one just past it.
    """
    levers = [row - part.centre for row in part.heights if row > part.centre]
    sharing = levers[: part.outside + 1]
    if load.moment and not sharing:
        raise NotCovered("no row stands above the flange in compression")
    squares = sum(lever**2 for lever in sharing)
    found = [load.moment * lever / squares / 2 for lever in sharing]
    found += [0.0] * (len(part.rows) - len(found))
    return [one + load.pull / (2 * len(part.rows)) for one in found]


def one_bolt(part: EndPlate, basis: Basis) -> float:
    """Tension resistance of one bolt."""
    if not part.bolt_class.covered:
        raise NotCovered(f"class {part.bolt_class.name} is outside EN 1993-1-8 Table 3.1")
    return bolt_clause.tension_resistance(0.9, part.bolt_class.f_ub, part.size.A_s, basis.gamma_M2)


def steps_between(part: EndPlate, first: int, last: int) -> list[float]:
    """Distances between the rows of a group."""
    return [float(step) for step in -np.diff(part.heights[first : last + 1])]


def zone(part: EndPlate, row: float) -> int:
    """0 between the flanges, 1 beyond the flange in tension, -1 beyond the other."""
    return 1 if row > part.depth else -1 if row < 0 else 0


def one_side(part: EndPlate, first: int, last: int) -> bool:
    """Whether these rows stand on one side of each of the beam's flanges."""
    return len({zone(part, row) for row in part.heights[first : last + 1]}) == 1


def bent_rows(part: EndPlate, flange: Flange, size: tuple[float, float], rows: int, basis: Basis) -> Force:
    """A T-stub of this joint. On a tube's wall nothing is taken to pry: it gives way under what would press on it."""
    bolt = 0.0 if part.grip is None else part.grip + (HEAD + NUT) / 2 * part.size.d
    bolt = math.inf if part.on_tube else bolt
    made = stub(flange, size, 2 * rows * one_bolt(part, basis), rows, basis, A_s=part.size.A_s, bolt=bolt)
    return made.resistance, made.mode


# ---- plate and beam -------------------------------------------------------------------------


def on_plate(part: EndPlate, state: AtLimit, basis: Basis) -> Bearing:
    """End plate, beam's web pulled and bolts (6.2.6.5, 6.2.6.8); the beam's flange and web pressed (6.2.6.7)."""
    return Bearing(
        (lambda first, last: _plate_group(part, first, last, basis),),
        ((_compression(part, state, basis), "flange in compression"),),
    )


def _compression(part: EndPlate, state: AtLimit, basis: Basis) -> float:
    whole, flange = _compressed(part, basis)
    # High shear takes the web's share of the bending resistance (EN 1993-1-1 6.2.8).
    rho = (2 * min(state.sheared, 1.0) - 1) ** 2 if state.sheared > 0.5 else 0.0
    return whole - rho * max(whole - flange, 0.0)


@remembered
def _compressed(part: EndPlate, basis: Basis) -> tuple[float, float]:
    """What flange and web of the beam bear together without shear, and the flange alone."""
    flange = part.flange_width * part.flange * part.of_beam.f_y(part.flange) / basis.gamma_M0
    if part.beam is None:
        return flange, flange
    f_y = part.of_beam.f_y(part.flange)
    number = class_in_bending(part.beam, f_y, "y", 1.0).number
    bending = float(capacity(part.beam, f_y, number, 1, basis.gamma_M0, basis.eta, "y").M_y)
    whole = column.beam_compression_resistance(bending, part.depth, part.flange)
    if part.depth > DEEP_BEAM:
        whole = min(whole, flange / (1 - WEB_SHARE))
    return whole, flange


@remembered
def _plate_group(part: EndPlate, first: int, last: int, basis: Basis) -> Force | None:
    """Rows beside the web or beyond a flange; a group runs on one side of a flange only (None across it)."""
    if not one_side(part, first, last):
        return None
    f_y = part.steel.f_y(part.plate)
    if zone(part, part.heights[first]):
        return _outside(part, part.heights[first], f_y, basis) if first == last else None
    m = clause.lever_from_weld(part.gauge, part.web, part.web_throat)
    free = part.top - part.heights[first] if first == 0 and part.top < part.depth - part.flange else None
    flange = Flange(part.plate, f_y, m, part.edge)
    circular, other = lengths(flange, (free, None), steps_between(part, first, last))
    if first == part.outside and free is None:
        # The first row below the flange in tension, Table 6.6.
        m_2 = part.depth - part.flange - part.heights[first] - 0.8 * part.flange_throat * math.sqrt(2)
        other += beside_stiffener(flange, m_2)
    size = circular, other
    made = bent_rows(part, flange, size, last - first + 1, basis)
    f_yb = part.of_beam.f_y(part.web)
    web = column.web_tension_resistance(1.0, min(size), part.web, f_yb, basis.gamma_M0)
    return min(made, (web, "web of the beam in tension"))


def _outside(part: EndPlate, row: float, f_y: float, basis: Basis) -> Force:
    """A row beyond a flange; beyond the one in compression the plate is taken to end as it does on the other side."""
    beyond = row - part.depth if row > 0 else -row
    m_x = beyond - 0.8 * part.flange_throat * math.sqrt(2)
    e_x = part.top - part.depth - beyond
    if e_x <= 0:
        raise NotCovered("the plate's end beyond the flange in compression is not known")
    size = (
        clause.outside_flange_circular(m_x, part.gauge, part.edge),
        clause.outside_flange_other(m_x, e_x, part.gauge, part.edge, part.width),
    )
    return bent_rows(part, Flange(part.plate, f_y, m_x, e_x), size, 1, basis)
