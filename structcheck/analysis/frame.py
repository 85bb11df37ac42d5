"""Frames in space by direct stiffness, with members flexible in shear.

Signs and axes, for everything in this room:

    local axes  x from the member's start to its end; z on the side of its vector `up`; y = z cross x
    movements   along the axes, mm; rotations right-handed about them, rad
    loads       forces and moments along and about the axes, on the structure; positions from the start node
    reactions   what the ground puts on the structure
    end forces  what the node puts on the end of the member, local axes
    N           tension positive
    Vz, Vy      sum of the forces along +z (+y) before the cut; Vz = dMy/dx, Vy = dMz/dx
    My          bends in the local x-z plane; positive sagging, that is tension on the side of -z
    Mz          bends in the local x-y plane; positive sagging, that is tension on the side of -y
    T           torque on the face that looks along +x, right-handed about x

Units N, mm, MPa, rad. Diagrams follow from statics and are exact, as are Timoshenko deflections; nothing is sampled.
"""

from collections.abc import Mapping, Sequence

from structcheck.analysis.frame_arrays import Structure, prepare, rejointed
from structcheck.analysis.frame_check import check_loads
from structcheck.analysis.frame_loads import Loads, gather
from structcheck.analysis.frame_model import (
    DIRECTIONS,
    PINNED,
    RIGID,
    Frame,
    Joint,
    Load,
    Member,
    NodeLoad,
    PointOnMember,
    SelfWeight,
    Settlement,
    SpreadOnMember,
    Spring,
    Support,
)
from structcheck.analysis.frame_result import QUANTITIES, Extremes, Result
from structcheck.analysis.frame_system import (
    EQUILIBRIUM_TOLERANCE,
    RESIDUAL_TOLERANCE,
    answer,
    assemble,
    fixed_forces,
)
from structcheck.analysis.member import Extreme

__all__ = [
    "DIRECTIONS",
    "EQUILIBRIUM_TOLERANCE",
    "PINNED",
    "QUANTITIES",
    "RESIDUAL_TOLERANCE",
    "RIGID",
    "Extreme",
    "Extremes",
    "Frame",
    "Joint",
    "Member",
    "NodeLoad",
    "PointOnMember",
    "Result",
    "SelfWeight",
    "Settlement",
    "SpreadOnMember",
    "Spring",
    "Structure",
    "Support",
    "loads_of",
    "prepare",
    "rejointed",
    "solve",
    "solve_loads",
]


def solve(frame: Frame | Structure, cases: Mapping[str, Sequence[Load]]) -> Result:
    """Solve a frame for all its load cases with one factorisation.

    frame  a Frame, or what `prepare` made of it where several sets of loads follow one another
    cases  name -> loads

    Raises InputError (every fault of frame and loads, each naming its thing), Mechanism (the node or part that moves
    freely, and how), StructcheckError where the residual of the equations or the equilibrium of a node or of the whole
    is worse than RESIDUAL_TOLERANCE and EQUILIBRIUM_TOLERANCE.
    """
    structure = prepare(frame) if isinstance(frame, Frame) else frame
    return solve_loads(structure, loads_of(structure, cases))


def solve_loads(structure: Structure, loads: Loads, like: Result | None = None) -> Result:
    """The same for loads already in arrays: those of a frame of the same members between the same nodes.

    like  the result for the same loads of a frame that differs in its joints only (`rejointed`): spares assembling
    """
    matrices = assemble(structure, like=like and like.matrices)
    fixed = fixed_forces(structure, matrices, loads, like and like.fixed)
    return Result(structure, loads, answer(structure, matrices, fixed, loads), matrices=matrices, fixed=fixed)


def loads_of(structure: Structure, cases: Mapping[str, Sequence[Load]]) -> Loads:
    """Check load cases and turn them into arrays. Raises InputError."""
    lengths = dict(zip(structure.member_index, structure.length.tolist(), strict=True))
    check_loads(structure.frame, cases, lengths)
    return gather(structure, cases)
