"""Which part of a structure moves without straining, in words."""

import numpy as np

from structcheck.analysis.frame_arrays import Structure

_FREE = 1e-13
"""Eigenvalue of the scaled stiffness below which a motion costs nothing: rounding leaves 1e-16 to 1e-15 there."""

_AXES = "xyz"


def free_motion(structure: Structure, scaled: np.ndarray) -> str:
    """Name a motion the scaled stiffness does not resist; empty where it resists them all."""
    values, vectors = np.linalg.eigh(scaled)
    loose = vectors[:, values < _FREE]
    if not loose.shape[1]:
        return ""
    return _as_one_piece(structure) or _of_one_node(structure, loose)


def _pieces(structure: Structure) -> np.ndarray:
    """Number of the connected piece of every node."""
    label = np.arange(len(structure.xyz))
    links = [tuple(pair) for pair in structure.ends]
    links += [(dofs[0] // 6, dofs[6] // 6) for dofs in structure.spring_dofs]
    for _ in range(len(label)):
        before = label.copy()
        for start, end in links:
            label[start] = label[end] = min(label[start], label[end])
        if (label == before).all():
            break
    return label


def _as_one_piece(structure: Structure) -> str:
    """A piece that moves as a rigid body past everything that holds it."""
    label = _pieces(structure)
    names = list(structure.node_index)
    resisted = (structure.held | (structure.ground > 0)).reshape(-1, 6)
    for piece in np.unique(label):
        nodes = np.flatnonzero(label == piece)
        # One node alone is told as a node.
        if len(nodes) < 2:
            continue
        arm = structure.xyz[nodes] - structure.xyz[nodes].mean(axis=0)
        reach = np.abs(arm).max()
        modes = np.zeros((len(nodes), 6, 6))
        for axis in range(3):
            unit = np.eye(3)[axis]
            modes[:, axis, axis] = 1.0
            modes[:, :3, 3 + axis] = np.cross(unit, arm) / reach
            modes[:, 3 + axis, 3 + axis] = 1.0
        _, sizes, directions = np.linalg.svd(np.concatenate([modes[resisted[nodes]], np.zeros((6, 6))]))
        loose = directions[sizes < 1e-9]
        if len(loose):
            what = "structure" if len(nodes) == len(names) else f'part with node "{names[nodes[0]]}"'
            return _rigid_words(loose, what)
    return ""


def _rigid_words(loose: np.ndarray, what: str) -> str:
    slides = [axis for axis in range(3) if np.linalg.norm(loose[:, axis]) > 1 - 1e-9]
    if slides:
        return f"the {what} can slide along {_AXES[slides[0]]}: no support holds it"
    size = np.linalg.norm(loose, axis=0)
    axis = int(np.argmax(size[3:]))
    if size[3 + axis] > 1e-6:
        return f"the {what} can turn about {_AXES[axis]}: no support holds it"
    return f"the {what} can slide along {_AXES[int(np.argmax(size[:3]))]}: no support holds it"


def _of_one_node(structure: Structure, loose: np.ndarray) -> str:
    """The node and direction that take the largest part in the free motions."""
    share = np.linalg.norm(loose, axis=1)
    place = int(np.argmax(np.round(share, 9)))
    node, direction = divmod(int(structure.free[place]), 6)
    way = f"turn about {_AXES[direction - 3]}" if direction >= 3 else f"move along {_AXES[direction]}"
    return f'node "{list(structure.node_index)[node]}" can {way}: nothing there resists it'
