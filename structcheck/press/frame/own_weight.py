"""Own weight and added masses: left out where they are next to nothing, else put on every demand at their largest."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from structcheck.analysis.frame import NodeLoad, PointOnMember, SelfWeight
from structcheck.analysis.frame_model import Load
from structcheck.findings import Assumption
from structcheck.press.cases import Forces
from structcheck.press.frame.envelope import Combination, Level, Sampled
from structcheck.press.frame.lines import Lines
from structcheck.press.frame.understood import Ring
from structcheck.press.frame_schema import AddedMass
from structcheck.quantities import G_N
from structcheck.record import record

LIGHT = 0.01
"""Share of the rated force up to which weight is left out of the frame's forces; ours."""
FACTOR = 1.35
"""EN 1990:2002 Table A1.2(B), a permanent action that presses."""
CASE = "own weight"
TO_A_SIDE = np.array([-1.0, 1.0, 1.0, 1.0, 1.0, 1.0])
"""Which way it acts where nothing else does: along a member it presses."""


@record
class OwnWeight:
    """What weight does.

    sizes  state -> member -> (6,) largest sizes along it, per N of all jacks
    share  the whole of it per N of all jacks
    each   by what weight is multiplied for 1 N of all jacks (`per_newton`)
    """

    sizes: Mapping[str, Mapping[str, np.ndarray]]
    share: float = 0.0
    each: float = 0.0

    def on(self, rows: Sampled, combined: Sequence[Combination], member: str) -> Sampled:
        """The rows made larger by it, component by component, whichever way it acts."""
        if not self.sizes:
            return rows

        def heavier() -> Sampled:
            extra = np.stack([self.sizes[c.state][member] for c in combined])[rows.combination]
            signs = np.where(rows.values == 0, TO_A_SIDE, np.sign(rows.values))
            return replace(rows, values=rows.values + signs * extra)

        return rows.once(("weight", member, self.each), heavier)

    def moment(self, state: str, member: str) -> float:
        """In the plane, the largest along a member."""
        return float(self.sizes[state][member][4]) if self.sizes else 0.0


NOTHING = OwnWeight({})


def raised(levels: Sequence[Level], share: float) -> tuple[Level, ...]:
    """Forces raised by weight, as if it stood where the jack pushes: more than weight can do anywhere."""
    return tuple(replace(level, force=level.force * (1 + share)) for level in levels)


def is_heavy(mass: float, forces: Forces) -> bool:
    """Whether weight counts beside the jack's force."""
    return mass * G_N > LIGHT * forces.rated


def said(mass: float, forces: Forces) -> Assumption:
    """What was done with it."""
    share = mass * G_N / forces.rated
    what = f"own weight and added masses, {mass * G_N / 1e3:.2g} kN"
    if is_heavy(mass, forces):
        text = f"{what}, {share:.1%} of R, are put on every demand at their largest, whichever way they act"
    else:
        text = f"{what}, are left out of the frame's forces: {share:.1%} of R; up to {LIGHT:.0%} counts as nothing"
    return Assumption("frame", text)


def per_newton(forces: Forces) -> float:
    """What 1 N of weight is beside 1 N of the jacks, at the level where it is most."""
    return max(FACTOR / forces.ultimate, 1 / forces.greatest, 1 / forces.rated)


def sizes_in(
    lines: Lines, members: Sequence[str], combinations: Sequence[np.ndarray]
) -> Iterator[dict[str, np.ndarray]]:
    """Largest sizes along each member in each of some combinations of the columns of a solved frame."""
    _, forces = lines.ends_of_runs()
    index = lines.result.structure.member_index
    for column in combinations:
        yield {name: np.abs(forces[:, index[name]] @ column).max(axis=1) for name in members}


def ring_members(ring: Ring) -> list[str]:
    """The members of a ring that weigh."""
    sides = ("left", "right")
    legs = [f"{side} leg" for side in sides] if ring.legs else []
    return ["head", "bed", *(f"{side} upright" for side in sides), *legs]


def ring_loads(ring: Ring, masses: Sequence[AddedMass], below: float) -> list[Load]:
    """The weight of one plane; an added mass hangs in the middle of the beam it is nearest to."""
    found: list[Load] = [SelfWeight(members=ring_members(ring))]
    for row in masses:
        beam = "head" if (row.height or 0.0) - below > ring.height / 2 else "bed"
        found.append(PointOnMember(beam, ring.span / 2, (0.0, 0.0, -row.mass * G_N / ring.planes)))
    return found


def member_loads(masses: Sequence[AddedMass]) -> list[Load]:
    """The weight of a frame of nodes and members; an added mass hangs on its node."""
    hung = [NodeLoad(row.node, (0.0, 0.0, -row.mass * G_N)) for row in masses if row.node is not None]
    return [SelfWeight(), *hung]
