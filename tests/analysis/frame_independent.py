"""Another way to solve a frame, sharing no code with the package: flexibilities by numerical integration, sparse solve.

Each member is a cantilever whose tip flexibility and tip movement under its loads are integrated by Gauss points; its
stiffness is the inverse, carried to both ends by equilibrium. Joints get unknowns of their own. scipy solves the sparse
equations. Slow, plain and meant to be read.
"""

from itertools import pairwise

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import spsolve

from structcheck.analysis.frame import DIRECTIONS, NodeLoad, PointOnMember, SelfWeight, Settlement, SpreadOnMember

GAUSS = np.polynomial.legendre.leggauss(8)


def rotation(member, start, end):
    """Rows are the local axes, found by turning matrices rather than by cross products alone."""
    x = np.subtract(end, start)
    x = x / np.linalg.norm(x)
    up = member.up or ((1.0, 0.0, 0.0) if abs(x[2]) > 1 - 1e-9 else (0.0, 0.0, 1.0))
    z = np.array(up, dtype=float) - np.dot(up, x) * x
    z = z / np.linalg.norm(z)
    y = np.cross(z, x)
    # Rodrigues: y and z turned about x.
    K = np.array([[0, -x[2], x[1]], [x[2], 0, -x[0]], [-x[1], x[0], 0]])
    turn = np.eye(3) + np.sin(member.angle) * K + (1 - np.cos(member.angle)) * K @ K
    return np.array([x, turn @ y, turn @ z])


def section_forces(force, moment, arm):
    """N, Vy, Vz, T, My, Mz as vectors at a cut `arm` before the place of a force and moment (local)."""
    return np.concatenate([force, moment + np.cross([arm, 0, 0], force)])


def compliance(member):
    """Strain per section force: stretch, two slides, twist, two curvatures."""
    E, G = member.E, member.G
    slide = [0.0 if area is None else 1 / (G * area) for area in (member.Asy, member.Asz)]
    return np.diag([1 / (E * member.A), *slide, 1 / (G * member.J), 1 / (E * member.Iy), 1 / (E * member.Iz)])


def points(places):
    """Gauss points and weights on every stretch between places."""
    for low, high in pairwise(places):
        for at, weight in zip(*GAUSS, strict=True):
            yield low + (high - low) * (at + 1) / 2, weight * (high - low) / 2


class Piece:
    """The flexible part of one member: stiffness and clamped-end forces in local axes."""

    def __init__(self, member, R, length, loads):
        self.first, self.length = member.at_start.offset, length - member.at_start.offset - member.at_end.offset
        self.R, self.whole = R, length
        stops = {0.0, self.length}
        for load in loads:
            ends = (load[1],) if load[0] == "point" else load[1:3]
            stops |= {min(max(place - self.first, 0.0), self.length) for place in ends}
        stops = sorted(stops)
        C = compliance(member)
        F, tip = np.zeros((6, 6)), np.zeros(6)
        for x, weight in points(stops):
            B = np.array([section_forces(*np.split(unit, 2), self.length - x) for unit in np.eye(6)]).T
            F += weight * B.T @ C @ B
            tip += weight * B.T @ C @ self.loads_beyond(loads, x)
        ends = np.linalg.inv(F)
        carry = np.array([section_forces(*np.split(unit, 2), self.length) for unit in np.eye(6)]).T
        # Forces on the start balance those on the end; the transpose carries movements.
        T = np.vstack([-carry, np.eye(6)])
        self.k = T @ ends @ T.T
        q = -ends @ tip
        self.f = np.concatenate([-(carry @ q + self.loads_beyond(loads, -1e-12)), q])

    def loads_beyond(self, loads, x):
        """Section forces at x of the cantilever from the loads on the flexible part beyond it."""
        total = np.zeros(6)
        for load in loads:
            if load[0] == "point":
                place = load[1] - self.first
                if -1e-9 <= place <= self.length + 1e-9 and place > x:
                    total += section_forces(*load[2:4], place - x)
            else:
                low, high = max(load[1] - self.first, x, 0.0), min(load[2] - self.first, self.length)
                if high > low:
                    for at, weight in points([low, high]):
                        share = (at + self.first - load[1]) / (load[2] - load[1])
                        pull = load[3] + share * (load[4] - load[3])
                        total += weight * section_forces(pull, np.zeros(3), at - x)
        return total

    def zone_loads(self, loads):
        """Loads on the rigid zones, taken to the nodes."""
        total = np.zeros(12)
        last = self.first + self.length
        for load in loads:
            if load[0] == "point":
                rows = [(load[1], load[2], load[3])]
            else:
                stops = sorted({min(max(s, load[1]), load[2]) for s in (load[1], self.first, last, load[2])})
                rows = []
                for at, weight in points(stops):
                    share = (at - load[1]) / (load[2] - load[1])
                    rows.append((at, weight * (load[3] + share * (load[4] - load[3])), np.zeros(3)))
            for at, force, moment in rows:
                if at < self.first - 1e-9:
                    total[:6] += section_forces(force, moment, at)
                elif at > last + 1e-9:
                    total[6:] += section_forces(force, moment, at - self.whole)
        return total


def member_loads(frame, loads, member, R, length):
    """("point", at, force, moment) and ("spread", start, end, force, force there), local."""
    found = []
    for load in loads:
        if isinstance(load, SelfWeight) and (load.members is None or member.name in load.members):
            way = np.array(load.direction) / np.linalg.norm(load.direction)
            pull = R @ way * load.density * load.g * member.A
            found.append(("spread", 0.0, length, pull, pull))
        if getattr(load, "member", None) != member.name:
            continue
        turn = R if load.axes == "global" else np.eye(3)
        if isinstance(load, PointOnMember):
            found.append(("point", load.at, turn @ load.force, turn @ load.moment))
        elif isinstance(load, SpreadOnMember):
            end = length if load.end is None else load.end
            to = load.force if load.to is None else load.to
            found.append(("spread", load.start, end, turn @ load.force, turn @ to))
    return found


def solve(frame, loads):
    """Node displacements {name: six numbers} and reactions {name: six numbers} of one case."""
    number = {name: 6 * k for k, name in enumerate(frame.nodes)}
    count = 6 * len(number)
    rows, columns, values, extra, pushes = [], [], [], count, []

    def add(G_rows, matrix, force):
        """Add G' matrix G and G' force, where row i of G is {unknown: factor}."""
        size = extra + 12
        G = np.zeros((len(G_rows), size))
        for i, row in enumerate(G_rows):
            for unknown, factor in row.items():
                G[i, unknown] += factor
        used = np.flatnonzero(G.any(axis=0))
        block = G[:, used].T @ matrix @ G[:, used]
        rows.extend(np.repeat(used, len(used)))
        columns.extend(np.tile(used, len(used)))
        values.extend(block.ravel())
        pushes.append((used, G[:, used].T @ force))

    for member in frame.members:
        start, end = (np.array(frame.nodes[name], dtype=float) for name in (member.start, member.end))
        R, length = rotation(member, start, end), float(np.linalg.norm(end - start))
        own = member_loads(frame, loads, member, R, length)
        piece = Piece(member, R, length, own)
        G_rows, node_rows = [], []
        sides = ((member.start, member.at_start, 1.0), (member.end, member.at_end, -1.0))
        for name, joint, sign in sides:
            arm = sign * joint.offset * R[0]
            for k in range(6):
                axis, row = R[k % 3], {}
                for i in range(3):
                    if k < 3:
                        row[number[name] + i] = axis[i]
                        row[number[name] + 3 + i] = np.cross(arm, axis)[i]
                    else:
                        row[number[name] + 3 + i] = axis[i]
                node_rows.append({number[name] + i % 3 + 3 * (k > 2): axis[i % 3] for i in range(3)})
                stiffness = getattr(joint, DIRECTIONS[k])
                if np.isinf(stiffness):
                    G_rows.append(row)
                    continue
                own_unknown, extra = extra, extra + 1
                G_rows.append({own_unknown: 1.0})
                gap = row | {own_unknown: -1.0}
                add([gap], np.array([[stiffness]]), np.zeros(1))
        add(G_rows, piece.k, -piece.f)
        add(node_rows, np.zeros((12, 12)), piece.zone_loads(own))
    for spring in frame.springs:
        start, end = (np.array(frame.nodes[name], dtype=float) for name in (spring.start, spring.end))
        for direction, stiffness in spring.stiffness.items():
            if direction == "along":
                way = (end - start) / np.linalg.norm(end - start)
            else:
                way = np.eye(3)[DIRECTIONS.index(direction) % 3]
            row = {}
            for i in range(3):
                if direction.startswith("r"):
                    row |= {number[spring.end] + 3 + i: way[i], number[spring.start] + 3 + i: -way[i]}
                else:
                    lever = np.cross(start - end, way)[i]
                    row |= {number[spring.end] + i: way[i], number[spring.end] + 3 + i: lever}
                    row |= {number[spring.start] + i: -way[i]}
            add([row], np.array([[stiffness]]), np.zeros(1))
    return _solve(frame, loads, number, extra, (rows, columns, values), pushes)


def _solve(frame, loads, number, size, triplets, pushes):
    rows, columns, values = triplets
    K = coo_matrix((values, (rows, columns)), shape=(size, size)).tocsr()
    f = np.zeros(size)
    for used, force in pushes:
        f[used] += force
    u, held = np.zeros(size), np.zeros(size, dtype=bool)
    for load in loads:
        if isinstance(load, NodeLoad):
            f[number[load.node] : number[load.node] + 6] += [*load.force, *load.moment]
        if isinstance(load, Settlement):
            for direction, value in load.moves.items():
                u[number[load.node] + DIRECTIONS.index(direction)] = value
    ground = np.zeros(size)
    for support in frame.supports:
        for direction in support.fixed.split():
            held[number[support.node] + DIRECTIONS.index(direction)] = True
        for direction, stiffness in support.springs.items():
            ground[number[support.node] + DIRECTIONS.index(direction)] += stiffness
    K = K + coo_matrix((ground, (range(size), range(size))), shape=(size, size)).tocsr()
    free = np.flatnonzero(~held)
    u[free] = spsolve(K[free][:, free].tocsc(), f[free] - K[free][:, np.flatnonzero(held)] @ u[held])
    reaction = np.where(held, K @ u - f, -ground * u)
    moves = {name: u[first : first + 6] for name, first in number.items()}
    return moves, {name: reaction[first : first + 6] for name, first in number.items()}
