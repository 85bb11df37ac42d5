"""The words a frame is described in: nodes, members with their end joints, supports, springs and loads.

Directions are named x, y, z (movement) and rx, ry, rz (rotation about). Units N, mm, MPa, rad. Nothing here computes.
"""

from collections.abc import Mapping, Sequence
from dataclasses import field
from math import inf

from structcheck.record import record

DIRECTIONS = ("x", "y", "z", "rx", "ry", "rz")

Vector = tuple[float, float, float]
NOTHING: Vector = (0.0, 0.0, 0.0)


@record
class Joint:
    """How one end of a member is joined to its node.

    x .. rz  stiffness of the joint in each local direction of the member: infinite is rigid, 0 is released, anything
             between is a spring (N/mm for movement, N mm/rad for rotation)
    offset   length of the rigid zone between the node and the joint, mm; the joint stands at the face of the zone
    """

    x: float = inf
    y: float = inf
    z: float = inf
    rx: float = inf
    ry: float = inf
    rz: float = inf
    offset: float = 0.0


RIGID = Joint()
PINNED = Joint(ry=0.0, rz=0.0)


@record
class Member:
    """A straight prismatic member from node `start` to node `end`.

    E, G      MPa
    A         mm2
    Iy, Iz    second moments about the local axes, mm4; Iy resists bending in the local x-z plane
    J         torsion constant, mm4
    Asy, Asz  stiffness shear areas for forces along local y and z, mm2; None leaves shear strain out
    up        a vector on the side of local z, which lies in the plane of this vector and the member; None means the
              global z, or the global x for a member along z
    angle     turns local y and z about the member, rad, right-handed
    """

    name: str
    start: str
    end: str
    E: float
    G: float
    A: float
    Iy: float
    Iz: float
    J: float
    Asy: float | None = None
    Asz: float | None = None
    up: Vector | None = None
    angle: float = 0.0
    at_start: Joint = RIGID
    at_end: Joint = RIGID


@record
class Support:
    """What holds a node to the ground.

    fixed    directions held, as one text: "x y z" or "x y z rx ry rz"
    springs  directions held by a spring to the ground, with the stiffness in N/mm or N mm/rad
    """

    node: str
    fixed: str = ""
    springs: Mapping[str, float] = field(default_factory=dict)


@record
class Spring:
    """Springs between two nodes, in global directions or "along" the line from start to end.

    The springs sit at `start`; a rigid arm reaches from `end` to them, so that nodes apart stay in equilibrium.
    stiffness  by direction (x .. rz, along), N/mm or N mm/rad; a positive force pulls the nodes together
    """

    name: str
    start: str
    end: str
    stiffness: Mapping[str, float]


@record
class Frame:
    """A structure without its loads.

    nodes    name -> (x, y, z), mm. Two nodes at one place are an error unless a spring joins them.
    plane    "xz", "xy" or "yz" holds every node within that plane; None leaves the frame in space
    """

    nodes: Mapping[str, Vector]
    members: Sequence[Member]
    supports: Sequence[Support]
    springs: Sequence[Spring] = ()
    plane: str | None = None


@record
class NodeLoad:
    """A force (N) and a moment (N mm) on a node, in global axes."""

    node: str
    force: Vector = NOTHING
    moment: Vector = NOTHING


@record
class PointOnMember:
    """A force (N) and a moment (N mm) at a distance from the member's start node (mm), in "global" or "local" axes."""

    member: str
    at: float
    force: Vector = NOTHING
    moment: Vector = NOTHING
    axes: str = "global"


@record
class SpreadOnMember:
    """A force per length of the member (N/mm) from `start` to `end`, distances from the start node (mm).

    end     None means the end node
    force   at `start`
    to      the force per length at `end`, reached in a straight line; None means it stays as it was
    """

    member: str
    force: Vector
    start: float = 0.0
    end: float | None = None
    to: Vector | None = None
    axes: str = "global"


@record
class SelfWeight:
    """The weight of members, node to node.

    density    kg/mm3
    direction  where weight pulls, any length
    members    names; None means all
    g          m/s2; kg/mm3 x mm2 x m/s2 is N/mm
    """

    density: float = 7.85e-6
    direction: Vector = (0.0, 0.0, -1.0)
    members: Sequence[str] | None = None
    g: float = 9.80665


@record
class Settlement:
    """Displacements (mm, rad) forced on held directions of a node."""

    node: str
    moves: Mapping[str, float]


Load = NodeLoad | PointOnMember | SpreadOnMember | SelfWeight | Settlement
