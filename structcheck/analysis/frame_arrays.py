"""A described frame turned into arrays once, so that everything after is done for all members together.

Axes order of every array: members first; degrees of freedom are x, y, z, rx, ry, rz of the start, then of the end.
"""

from collections.abc import Mapping
from copy import copy
from functools import cached_property

import numpy as np

from structcheck.analysis.frame_check import PLANES, check_frame, has_joint, held_directions
from structcheck.analysis.frame_model import DIRECTIONS, RIGID, Frame, Member
from structcheck.record import record

_NEXT, _AFTER = np.array([1, 2, 0]), np.array([2, 0, 1])


def cross(a: np.ndarray, b: np.ndarray) -> np.ndarray:
    """Vector products along the last axis; numpy's own takes five times as long over a few vectors."""
    return a[..., _NEXT] * b[..., _AFTER] - a[..., _AFTER] * b[..., _NEXT]


_PLACE = {direction: place for place, direction in enumerate(DIRECTIONS)}


@record
class Structure:
    """m members, n nodes, s spring directions; degrees of freedom number 6 n, of which `free` may move."""

    frame: Frame
    node_index: Mapping[str, int]
    member_index: Mapping[str, int]
    xyz: np.ndarray  # (n, 3) mm
    ends: np.ndarray  # (m, 2) node numbers
    length: np.ndarray  # (m,) node to node, mm
    axes: np.ndarray  # (m, 3, 3) rows are local x, y, z in global axes
    section: np.ndarray  # (8, m) E, G, A, Iy, Iz, J, Asy, Asz; infinite areas where there is no shear strain
    offsets: np.ndarray  # (m, 2) rigid zones, mm
    jointed: np.ndarray  # (r,) members with a joint that is not rigid
    joints: np.ndarray  # (r, 12) stiffness of their joints
    spring_names: list[tuple[str, str]]  # (spring, direction)
    spring_dofs: np.ndarray  # (s, 12)
    spring_rows: np.ndarray  # (s, 12) stretch of the spring for unit displacements
    spring_stiffness: np.ndarray  # (s,)
    ground: np.ndarray  # (6 n,) stiffness of springs to the ground
    held: np.ndarray  # (6 n,) whether fixed

    @cached_property
    def bending(self) -> np.ndarray:
        """(2, m) E I that resists bending with y, then with z."""
        return self.section[0] * self.section[4:2:-1]

    @cached_property
    def sliding(self) -> np.ndarray:
        """(2, m) G A_s for forces along y, then along z."""
        return self.section[1] * self.section[6:]

    @cached_property
    def shear_ratios(self) -> np.ndarray:
        """(2, m) 12 E I / (G As l^2) of the x-y and x-z planes."""
        return 12 * self.bending / (self.sliding * self.flexible**2)

    @cached_property
    def flexible(self) -> np.ndarray:
        """(m,) length between the faces of the rigid zones, mm."""
        return self.length - self.offsets.sum(axis=1)

    @cached_property
    def dofs(self) -> np.ndarray:
        """(m, 12) degrees of freedom of every member."""
        return (6 * self.ends[:, :, None] + np.arange(6)).reshape(-1, 12)

    @cached_property
    def all_dofs(self) -> np.ndarray:
        """(m + s, 12) degrees of freedom of members and springs."""
        return np.concatenate([self.dofs, self.spring_dofs])

    @cached_property
    def middle(self) -> np.ndarray:
        """Where moments on the whole are taken about, mm: far from the frame a small force would seem a large one."""
        return self.xyz.mean(axis=0)

    @cached_property
    def sums(self) -> np.ndarray:
        """(6, 6 n) what sums forces and moments on nodes to those on the whole, about its middle."""
        total = np.zeros((6, len(self.xyz), 6))
        total[range(6), :, range(6)] = 1.0
        arm = (self.xyz - self.middle).T
        for axis, (after, last) in enumerate(zip(_NEXT, _AFTER, strict=True)):
            total[3 + axis, :, last], total[3 + axis, :, after] = arm[after], -arm[last]
        return total.reshape(6, -1)

    @cached_property
    def free(self) -> np.ndarray:
        """The degrees of freedom that may move."""
        return np.flatnonzero(~self.held)

    @cached_property
    def probe(self) -> np.ndarray:
        """A load of length one with a little of every free direction and no symmetry; (f,)."""
        load = np.cos(np.arange(len(self.free)) ** 2 + 1.0)
        return load / np.sqrt(load @ load)

    @cached_property
    def scatter(self) -> np.ndarray:
        """Places of the entries of all members' and springs' matrices in the flattened whole; the last is waste."""
        count = len(self.free)
        place = np.full(len(self.held), -1)
        place[self.free] = np.arange(count)
        place = place[self.all_dofs]
        target = place[:, :, None] * count + place[:, None, :]
        kept = (place[:, :, None] >= 0) & (place[:, None, :] >= 0)
        return np.where(kept, target, count * count).ravel()


def prepare(frame: Frame, check: bool = True) -> Structure:
    """Check a frame and turn it into arrays. Raises InputError with every fault found.

    check  False for a frame that was cut from a checked one, whose new nodes may lie on other members
    """
    if check:
        check_frame(frame)
    node_index = {name: number for number, name in enumerate(frame.nodes)}
    xyz = np.array(list(frame.nodes.values()), dtype=float)
    ends = np.array([(node_index[member.start], node_index[member.end]) for member in frame.members])
    span = xyz[ends[:, 1]] - xyz[ends[:, 0]]
    length = np.sqrt(np.einsum("ij,ij->i", span, span))
    along = span / length[:, None]
    section = np.array([_figures(member) for member in frame.members], dtype=float).T.copy()
    offsets = np.array([(member.at_start.offset, member.at_end.offset) for member in frame.members], dtype=float)
    jointed, joints = _jointed(frame)
    names, dofs, rows, stiffness = _springs(frame, node_index, xyz)
    ground, held = _ground(frame, node_index)
    return Structure(
        frame=frame,
        node_index=node_index,
        member_index={member.name: number for number, member in enumerate(frame.members)},
        xyz=xyz,
        ends=ends,
        length=length,
        axes=_axes(frame.members, along),
        section=section,
        offsets=offsets,
        jointed=jointed,
        joints=joints,
        spring_names=names,
        spring_dofs=dofs,
        spring_rows=rows,
        spring_stiffness=stiffness,
        ground=ground,
        held=held,
    )


def rejointed(structure: Structure, frame: Frame) -> Structure:
    """The arrays of a frame that differs in the stiffness of its joints only; nothing else is looked at again."""
    jointed, joints = _jointed(frame)
    found = copy(structure)  # with all that was worked out of it: none of that hangs on joints
    vars(found).update(frame=frame, jointed=jointed, joints=joints)
    return found


def _jointed(frame: Frame) -> tuple[np.ndarray, np.ndarray]:
    numbers = [number for number, member in enumerate(frame.members) if _released(member)]
    joints = np.array([_joints(frame.members[number]) for number in numbers], dtype=float).reshape(-1, 12)
    return np.array(numbers, dtype=int), joints


def _figures(member: Member) -> tuple[float, ...]:
    shear = (np.inf if area is None else area for area in (member.Asy, member.Asz))
    return (member.E, member.G, member.A, member.Iy, member.Iz, member.J, *shear)


def _released(member: Member) -> bool:
    rigid = member.at_start is RIGID and member.at_end is RIGID
    return not rigid and (has_joint(member.at_start) or has_joint(member.at_end))


def _joints(member: Member) -> list[float]:
    return [getattr(joint, direction) for joint in (member.at_start, member.at_end) for direction in DIRECTIONS]


def _axes(members: list[Member], along: np.ndarray) -> np.ndarray:
    """Local axes: z on the side of `up`, then turned by `angle`."""
    default = np.where(np.abs(along[:, 2:]) > 1 - 1e-9, (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    for number, member in enumerate(members):
        if member.up is not None:
            default[number] = member.up
    y = cross(default, along)
    y /= np.sqrt(np.einsum("ij,ij->i", y, y))[:, None]
    z = cross(along, y)
    angle = np.array([member.angle for member in members])[:, None]
    if angle.any():
        y, z = y * np.cos(angle) + z * np.sin(angle), z * np.cos(angle) - y * np.sin(angle)
    return np.stack([along, y, z], axis=1)


def _springs(
    frame: Frame, node_index: Mapping[str, int], xyz: np.ndarray
) -> tuple[list[tuple[str, str]], np.ndarray, np.ndarray, np.ndarray]:
    """One row for each direction of each spring: the stretch that unit displacements of its two nodes give it."""
    names, dofs, rows, stiffness = [], [], [], []
    for spring in frame.springs:
        start, end = node_index[spring.start], node_index[spring.end]
        arm = xyz[start] - xyz[end]
        for direction, value in spring.stiffness.items():
            turn, way = np.zeros(3), np.zeros(3)
            if direction == "along":
                way = -arm / np.sqrt(arm @ arm)
            elif direction in "xyz":
                way[_PLACE[direction]] = 1.0
            else:
                turn[_PLACE[direction] - 3] = 1.0
            # The end node carries the spring on a rigid arm: way . (u + theta x arm).
            rows.append(np.concatenate([-way, -turn, way, turn + cross(arm, way)]))
            dofs.append([6 * start + k for k in range(6)] + [6 * end + k for k in range(6)])
            names.append((spring.name, direction))
            stiffness.append(value)
    shape = (len(rows), 12)
    table = np.array(rows, dtype=float).reshape(shape)
    return names, np.array(dofs, dtype=int).reshape(shape), table, np.array(stiffness, dtype=float)


def _ground(frame: Frame, node_index: Mapping[str, int]) -> tuple[np.ndarray, np.ndarray]:
    ground, held = np.zeros(6 * len(node_index)), np.zeros(6 * len(node_index), dtype=bool)
    for node, direction in held_directions(frame):
        held[6 * node_index[node] + _PLACE[direction]] = True
    for support in frame.supports:
        for direction, value in support.springs.items():
            ground[6 * node_index[support.node] + _PLACE[direction]] += value
    if frame.plane is not None:
        for direction in PLANES[frame.plane]:
            held[_PLACE[direction] :: 6] = True
    return ground, held
