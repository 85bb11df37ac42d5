"""How tight: torque for a size, class and lubrication, the preload to expect and its scatter."""

from collections.abc import Mapping, Sequence

from structcheck.errors import NotCovered
from structcheck.materials.bolts import BoltClass, BoltSize, find_class, find_size, sizes
from structcheck.record import record
from structcheck.standards import tightening as clause

FRICTION: Mapping[str, float] = {"dry": 0.20, "as delivered": 0.14, "oiled": 0.12, "greased": 0.10}
"""Friction in thread and under the head by state; common practice for steel on steel, not read."""

SCATTER: Mapping[str, float] = {"torque wrench": 2.0, "by hand": 4.0}
"""Greatest over least preload (alpha_A) by way of tightening; recalled from VDI 2230, friction only estimated."""

USED = 0.9
"""Share of the yield strength that pull and torsion together may use at tightening."""

SOURCE = "VDI 2230:2003 (recalled; M16 x 1.5 read)"


@record
class Torque:
    """What one torque does: torque in N mm, greatest and least preload in N, greatest share of the proof stress."""

    size: str
    bolt_class: str
    state: str
    torque: float
    preload: float
    least: float
    source: str = SOURCE


def proof_strength(size: BoltSize, bolt_class: BoltClass) -> float:
    """R_p0.2 or R_eL in MPa for tightening: class 8.8 has 640 up to M16 and 660 above (ISO 898-1)."""
    by_product = {"8.8": 640.0 if size.d <= 16 else 660.0, "10.9": 940.0, "12.9": 1100.0}
    return by_product.get(bolt_class.name, bolt_class.f_yb)


def torque_for(
    size: BoltSize,
    bolt_class: BoltClass,
    state: str,
    way: str = "torque wrench",
    *,
    pitch: float | None = None,
    hole: float | None = None,
    d_w: float | None = None,
) -> Torque:
    """Torque to use a bolt of a class up to 90 % of yield, and the preload it gives.

    state  "dry", "as delivered", "oiled", "greased"
    way    "torque wrench", "by hand"
    pitch  of a fine thread; None: coarse
    hole   under the head; None: 1.5 mm more than the bolt
    d_w    outside of the bearing face; None: 0.95 of the width across flats

    Raises NotCovered for a bolt without a mark.
    """
    if bolt_class.assumed:
        raise NotCovered("a bolt without a mark is not to be relied on for preload: what it yields at is not known")
    if state not in FRICTION or way not in SCATTER:
        raise NotCovered(f'no friction for "{state}" or no scatter for "{way}"')
    mu, P = FRICTION[state], size.pitch if pitch is None else pitch
    d_2, d_3 = clause.pitch_diameter(size.d, P), clause.root_diameter(size.d, P)
    A_s = size.A_s if pitch is None else clause.stress_area(d_2, d_3)
    F_M = clause.assembly_preload(USED, proof_strength(size, bolt_class), A_s, P, d_2, d_3, mu)
    d_w = 0.95 * size.s_min if d_w is None else d_w
    D_Km = (d_w + (size.d + 1.5 if hole is None else hole)) / 2
    M_A = clause.tightening_torque(F_M, P, d_2, mu, D_Km, mu)
    return Torque(size.name, bolt_class.name, state, M_A, F_M, clause.least_preload(F_M, SCATTER[way]))


def torque_table(
    names: Sequence[str] = (), classes: Sequence[str] = ("8.8", "10.9"), states: Sequence[str] = tuple(FRICTION)
) -> list[Torque]:
    """A torque for every size (all where none is named), class and state."""
    return [
        torque_for(find_size(name), find_class(one), state)
        for name in (names or sizes())
        for one in classes
        for state in states
    ]
