"""Stiffness matrices of all members at once: shear-flexible, with joints and rigid zones, elastic and geometric.

A matrix of one member is a sum of fixed patterns of ones, each times a number, so that all of them are one product.
"""

import numpy as np

from structcheck.analysis.frame_arrays import Structure
from structcheck.errors import Mechanism


def _pattern(*entries: tuple[int, int, float]) -> np.ndarray:
    matrix = np.zeros((12, 12))
    for row, column, value in entries:
        matrix[row, column] = matrix[column, row] = value
    return matrix.ravel()


def _line(i: int) -> np.ndarray:
    return _pattern((i, i, 1), (i + 6, i + 6, 1), (i, i + 6, -1))


def _plane(w: int, r: int, sign: float) -> list[np.ndarray]:
    """Four patterns of bending: movement, movement with rotation, rotation near, rotation far."""
    mixed = ((w, r, sign), (w, r + 6, sign), (w + 6, r, -sign), (w + 6, r + 6, -sign))
    return [_line(w), _pattern(*mixed), _pattern((r, r, 1), (r + 6, r + 6, 1)), _pattern((r, r + 6, 1))]


# Rotation about y lowers w along the member, hence the sign.
_PATTERNS = np.array([_line(0), _line(3), *_plane(1, 5, 1.0), *_plane(2, 4, -1.0)])


def _summed(along: np.ndarray, twist: np.ndarray, planes: np.ndarray) -> np.ndarray:
    """Matrices from the numbers of their patterns: (m,), (m,) and (4, 2, m); (m, 12, 12)."""
    weights = np.empty((len(along), 10))
    weights[:, 0], weights[:, 1] = along, twist
    weights[:, 2:] = planes.transpose(2, 1, 0).reshape(-1, 8)
    return (weights @ _PATTERNS).reshape(-1, 12, 12)


def elastic(structure: Structure) -> np.ndarray:
    """Stiffness of the flexible parts between their own ends, local axes; (m, 12, 12)."""
    E, G, A, _, _, J, _, _ = structure.section
    length = structure.flexible
    phi = structure.shear_ratios
    b = structure.bending / (length * (1 + phi))
    planes = np.array([12 * b / length**2, 6 * b / length, (4 + phi) * b, (2 - phi) * b])
    return _summed(E * A / length, G * J / length, planes)


def geometric(structure: Structure, axial: np.ndarray, wagner: bool = False) -> np.ndarray:
    """What axial forces (N, tension positive, (m,)) add to the stiffness of the flexible parts; (m, 12, 12).

    Consistent with the shear-flexible deflection; the axial force does work on the slope of the axis. `wagner` lets it
    also work on the twist, N (Iy + Iz) / A, which is right only where warping is no help (closed and solid sections).
    """
    _, _, A, Iy, Iz, _, _, _ = structure.section
    length = structure.flexible
    phi = structure.shear_ratios
    n = axial / (1 + phi) ** 2
    near, far = 2 / 15 + phi / 6 + phi**2 / 12, 1 / 30 + phi / 6 + phi**2 / 12
    planes = np.array([n * (1.2 + 2 * phi + phi**2) / length, n / 10, n * near * length, -n * far * length])
    twist = axial * (Iy + Iz) / A / length if wagner else 0 * axial
    return _summed(0 * axial, twist, planes)


def zone_geometric(structure: Structure, axial: np.ndarray) -> np.ndarray:
    """The same for the rigid zones, on the rotations of the nodes in local axes; (m, 12, 12)."""
    matrix = np.zeros((len(axial), 12, 12))
    for end in (0, 1):
        for rotation in (4, 5):
            matrix[:, 6 * end + rotation, 6 * end + rotation] = axial * structure.offsets[:, end]
    return matrix


def transformation(structure: Structure) -> np.ndarray:
    """Global displacements of the two nodes into local ones of the faces of the rigid zones; (m, 12, 12)."""
    T = np.zeros((len(structure.length), 12, 12))
    axes = structure.axes
    for first in (0, 3, 6, 9):
        T[:, first : first + 3, first : first + 3] = axes
    if structure.offsets.any():
        for end, reach in ((0, structure.offsets[:, :1]), (6, -structure.offsets[:, 1:])):
            T[:, end + 1, end + 3 : end + 6] = reach * axes[:, 2]
            T[:, end + 2, end + 3 : end + 6] = -reach * axes[:, 1]
    return T


def condense(structure: Structure, stiffness: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """How the ends of jointed members follow the faces and the fixed-end forces: d = C u - D f; two (r, 12, 12).

    At every end direction, joint stiffness x (u - d) = k d + f; rigid joints leave u = d and released ones k d + f = 0.
    Raises Mechanism where the joints of one member let it move on its own.
    """
    joints = structure.joints
    k = stiffness[structure.jointed]
    diagonal = np.abs(k.reshape(-1, 144)[:, ::13])
    # Nothing resists there anyway: call the joint rigid and the row stays solvable.
    rigid = np.isinf(joints) | (diagonal == 0)
    total = np.where(rigid, 1.0, diagonal + np.where(rigid, 0.0, joints))
    yielding, holding = np.where(rigid, 0.0, 1 / total), np.where(rigid, 1.0, joints / total)
    matrix = yielding[:, :, None] * k
    matrix.reshape(-1, 144)[:, ::13] += holding
    try:
        inverse = np.linalg.inv(matrix)
    except np.linalg.LinAlgError:
        inverse = np.full_like(matrix, np.inf)
    if not np.abs(inverse).max(initial=0.0) < 1e12:
        _refuse_loose(structure, matrix)
    return inverse * holding[:, None, :], inverse * yielding[:, None, :]


def _refuse_loose(structure: Structure, matrix: np.ndarray) -> None:
    """Name the member whose joints release it from both nodes in some direction."""
    number = int(np.argmin(np.linalg.svd(matrix, compute_uv=False)[:, -1]))
    name = structure.frame.members[structure.jointed[number]].name
    released = structure.joints[number].reshape(2, 6) == 0
    if released[:, 3].all():
        raise Mechanism(f'member "{name}" can turn about its own axis: both ends are released in rx')
    if released[:, 0].all():
        raise Mechanism(f'member "{name}" can slide along its own axis: both ends are released in x')
    raise Mechanism(f'member "{name}" can move between its nodes: its joints release it from both in one direction')


def jointed_stiffness(structure: Structure, stiffness: np.ndarray, follow: np.ndarray) -> np.ndarray:
    """Stiffness between the faces, joints included; (m, 12, 12)."""
    if not len(structure.jointed):
        return stiffness
    total = stiffness.copy()
    block = stiffness[structure.jointed] @ follow
    block = 0.5 * (block + np.swapaxes(block, 1, 2))
    free = structure.joints == 0
    # A released direction carries nothing at all, not a rounding error that looks like stiffness.
    block[free[:, :, None] | free[:, None, :]] = 0.0
    total[structure.jointed] = block
    return total
