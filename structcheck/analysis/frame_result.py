"""What a solved frame answers: displacements, reactions, end forces, diagrams, deflections and their extremes."""

from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from functools import cached_property

import numpy as np

from structcheck.analysis.frame_arrays import Structure
from structcheck.analysis.frame_check import unknown
from structcheck.analysis.frame_lines import deflection_polynomials, diagram_polynomials, statics
from structcheck.analysis.frame_loads import Loads, Runs, forces_to_planes, moves_to_planes
from structcheck.analysis.frame_system import Answer, Fixed, Matrices, beside
from structcheck.analysis.member import Extreme, derivative, evaluate, zeros
from structcheck.errors import UnknownName
from structcheck.record import record

QUANTITIES = ("N", "Vy", "Vz", "T", "My", "Mz")


@record
class Extremes:
    """The least and the greatest value of a diagram on one member (a value of zero size included where it occurs)."""

    least: Extreme
    most: Extreme

    @property
    def largest(self) -> Extreme:
        """The one of larger size, with its sign."""
        return self.most if abs(self.most.value) >= abs(self.least.value) else self.least


@record
class Tables:
    """Extremes of all members and cases at once: (quantity, m, c) values, and their distances from the start node."""

    least: np.ndarray
    most: np.ndarray
    x_least: np.ndarray
    x_most: np.ndarray


@record
class Result:
    """A solved frame. `case` may be left out where there is only one.

    Positions x on a member are distances from its start node, mm. Diagrams run from node to node; extremes and greatest
    deflections are of the flexible part, between the faces of rigid zones. Unknown names raise UnknownName.
    """

    structure: Structure
    loads: Loads
    answer: Answer
    pieces: Mapping[str, tuple[tuple[int, float], ...]] = field(default_factory=dict)
    """Members that were split: numbers of the pieces and where each begins."""
    axial: np.ndarray | None = None
    """(m, c) axial force whose moment on the deflected member the diagrams include; None in first order."""
    excess: np.ndarray | None = None
    """(6, m, c) part of the forces on the start of the flexible parts that balances `axial`, in plane order."""
    matrices: Matrices | None = None
    fixed: Fixed | None = None
    """What was solved, in first order."""

    @property
    def cases(self) -> tuple[str, ...]:
        """Names of the load cases."""
        return self.loads.names

    def displacement(self, node: str, case: str | None = None) -> np.ndarray:
        """x, y, z (mm) and rx, ry, rz (rad) of a node, global."""
        return self._of_node(self.answer.moves, node, case)

    def reaction(self, node: str, case: str | None = None) -> np.ndarray:
        """Force (N) and moment (N mm) the ground gives a node, global, springs to the ground included."""
        return self._of_node(self.answer.reactions, node, case)

    def end_forces(self, member: str, case: str | None = None) -> tuple[np.ndarray, np.ndarray]:
        """Forces and moments on the two ends of a member at its nodes, local axes; two of shape (6,)."""
        pieces, column = self._pieces(member), self._case(case)
        return (
            np.array(self._local_ends[:6, pieces[0][0], column]),
            np.array(self._local_ends[6:, pieces[-1][0], column]),
        )

    def spring_force(self, spring: str, direction: str, case: str | None = None) -> float:
        """Force (N) or moment (N mm) of one direction of a spring, positive where it pulls its nodes together."""
        names = self.structure.spring_names
        if (spring, direction) not in names:
            raise UnknownName(unknown("spring", f"{spring} {direction}", (" ".join(name) for name in names)))
        return float(self.answer.springs[names.index((spring, direction)), self._case(case)])

    def stations(self, member: str) -> tuple[float, ...]:
        """Ends, faces of rigid zones and places where loads of any case stand, begin or end."""
        runs = self.loads.runs
        return tuple(sorted({float(begin + x) for piece, begin in self._pieces(member) for x in runs.stations[piece]}))

    def value(self, quantity: str, member: str, x, case: str | None = None, side: str = "right"):
        """N, Vy, Vz, T, My or Mz at x (a number or an array); beyond a jump there, or before it with side="left"."""
        row = self._quantity(quantity)
        return self._at(self.diagrams[:, row], member, x, self._case(case), side)

    def extremes(self, quantity: str, member: str, case: str | None = None) -> Extremes:
        """Least and greatest value of a diagram, both sides of every jump looked at."""
        return self._extremes(self.diagram_tables, self._quantity(quantity), member, self._case(case))

    def deflection(self, member: str, x, case: str | None = None, relative: bool = False) -> np.ndarray:
        """Movement along local x, y, z at x, mm; shape (3,) or (3, number of x).

        relative  measured from the straight line between the displaced nodes of the member
        """
        column = self._case(case)
        number, run, t = self._place(member, x, "right")
        # Indices on both sides of a slice put the places first.
        polynomials = np.moveaxis(self._deflections[..., column], 1, -1)[:, number, run]
        moved = np.moveaxis(evaluate(polynomials, t[..., None]), -1, 0)
        return moved - self._line(member, x, column) if relative else moved

    def deflection_extremes(
        self, member: str, direction: str = "z", case: str | None = None, relative: bool = False
    ) -> Extremes:
        """Least and greatest movement along local x, y or z; `relative` as in `deflection`."""
        if direction not in ("x", "y", "z"):
            raise UnknownName(unknown("direction", direction, "xyz"))
        row = "xyz".index(direction)
        return self._extremes(self.deflection_tables(relative), row, member, self._case(case))

    @cached_property
    def diagram_tables(self) -> Tables:
        """Extremes of N, Vy, Vz, T, My, Mz of every member (split ones: of every piece)."""
        return _tables(self.loads.runs, self.diagrams)

    def deflection_tables(self, relative: bool = False) -> Tables:
        """Extremes of the movement along local x, y, z of every member (split ones: of every piece)."""
        return self._relative_tables if relative else self._absolute_tables

    @cached_property
    def _absolute_tables(self) -> Tables:
        return _tables(self.loads.runs, self._deflections)

    @cached_property
    def _relative_tables(self) -> Tables:
        c = self._deflections.copy()
        runs = self.loads.runs
        first, slope, begin = self._chords
        along = (begin[:, None] + runs.stations[:, :-1])[:, :, None]
        c[0] -= first[:, :, None] + slope[:, :, None] * along
        c[1] -= slope[:, :, None]
        return _tables(runs, c)

    @cached_property
    def _local_ends(self) -> np.ndarray:
        """(12, m, c) forces on the members at their nodes, local axes."""
        axes = self.structure.axes
        ends = self.answer.ends
        turned = axes[:, None] @ ends.reshape(len(axes), 4, 3, -1)
        return np.moveaxis(turned.reshape(len(axes), 12, -1), 1, 0)

    @cached_property
    def _local_moves(self) -> np.ndarray:
        """(12, m, c) displacements of the nodes, local axes, plane order by ends."""
        axes = self.structure.axes
        moves = self.answer.moves[self.structure.dofs]
        turned = np.moveaxis((axes[:, None] @ moves.reshape(len(axes), 4, 3, -1)).reshape(len(axes), 12, -1), 1, 0)
        return np.concatenate([moves_to_planes(turned[:6]), moves_to_planes(turned[6:])])

    @cached_property
    def _sums(self) -> tuple[np.ndarray, np.ndarray]:
        return statics(self.loads.runs, forces_to_planes(self._local_ends[:6]))

    @cached_property
    def diagrams(self) -> np.ndarray:
        """N, Vy, Vz, T, My, Mz on every run as powers of the distance from its start; (powers, 6, m, S, c)."""
        c = diagram_polynomials(self.loads.runs, *self._sums)
        return c if self.axial is None else self._with_axial_moments(c)

    @cached_property
    def _deflections(self) -> np.ndarray:
        start = moves_to_planes(np.moveaxis(self.answer.flexible[:, :6], 1, 0))
        R, M = self._sums
        if self.axial is not None:
            R, M = self._bending_sums()
        return deflection_polynomials(self.structure, self.loads.runs, R, M, self._local_moves, start)

    def _bending_sums(self) -> tuple[np.ndarray, np.ndarray]:
        """R and M less the part of the end forces that only balances the axial force on the deflected member."""
        excess, runs = self.excess, self.loads.runs
        R, M = (part.copy() for part in self._sums)
        along = (runs.stations[:, :-1] - runs.faces[:, :1])[:, :, None]
        R[1:] -= excess[1:3, :, None]
        # The rigid zone's own tilt under the axial force is no bending of the flexible part either.
        tilt = self.axial * self.structure.offsets[:, :1] * self._local_moves[4:6]
        M[1:] += (tilt - excess[4:])[:, :, None] - excess[1:3, :, None] * along
        return R, M

    def _with_axial_moments(self, c: np.ndarray) -> np.ndarray:
        """Add N (w - w at the start node) to the moments, and its derivative to the shear forces."""
        w = self._deflections[:, 1:].copy()
        w[0] -= self._local_moves[1:3, :, None]
        bent = w * self.axial[:, None]
        total = np.zeros((6, *c.shape[1:]))
        total[: len(c)] = c
        total[:, 5] += bent[:, 0]
        total[:, 4] += bent[:, 1]
        slope = derivative(bent)
        total[:5, 1:3] += slope
        return total

    def _of_node(self, table: np.ndarray, node: str, case: str | None) -> np.ndarray:
        if node not in self.structure.node_index:
            raise UnknownName(unknown("node", node, self.structure.node_index))
        first = 6 * self.structure.node_index[node]
        return np.array(table[first : first + 6, self._case(case)])

    def _case(self, case: str | None) -> int:
        if case is None and len(self.cases) == 1:
            return 0
        if case not in self.cases:
            raise UnknownName(unknown("case", str(case), self.cases))
        return self.cases.index(case)

    def _pieces(self, member: str) -> tuple[tuple[int, float], ...]:
        if member in self.pieces:
            return self.pieces[member]
        if member not in self.structure.member_index or self.pieces:
            raise UnknownName(unknown("member", member, self.pieces or self.structure.member_index))
        return ((self.structure.member_index[member], 0.0),)

    def _quantity(self, quantity: str) -> int:
        if quantity not in QUANTITIES:
            raise UnknownName(unknown("quantity", quantity, QUANTITIES))
        return QUANTITIES.index(quantity)

    def deflections(self, member: str, x: np.ndarray) -> np.ndarray:
        """Movement along local x, y, z at places x (n,) in every case, mm; (3, n, c)."""
        number, run, t = self._place(member, x, "right")
        return evaluate(self._deflections[:, :, number, run], t[:, None])

    def _at(self, c: np.ndarray, member: str, x, column: int, side: str):
        """Polynomials (powers, m, S, c) of one member and case at x."""
        number, run, t = self._place(member, x, side)
        found = evaluate(c[:, number, run, column], t)
        return float(found) if found.ndim == 0 else found

    def _place(self, member: str, x, side: str) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Piece, run and distance into the run of places on a member."""
        pieces, runs = self._pieces(member), self.loads.runs
        numbers, begins = np.array([number for number, _ in pieces]), np.array([begin for _, begin in pieces])
        x, where = np.asarray(x, dtype=float), "right" if side == "right" else "left"
        piece = np.maximum(np.searchsorted(begins, x, where) - 1, 0)
        number, t = numbers[piece], x - begins[piece]
        stations = runs.stations[number]
        passed = stations <= t[..., None] if side == "right" else stations < t[..., None]
        # Past the last station only spare runs without length are left: step back to one that has some.
        run = np.minimum(np.maximum(passed.sum(axis=-1) - 1, 0), runs.last[number])
        return number, run, t - runs.stations[number, run]

    def _extremes(self, tables: Tables, row: int, member: str, column: int) -> Extremes:
        pieces = self._pieces(member)
        least = min(pieces, key=lambda piece: tables.least[row, piece[0], column])
        most = max(pieces, key=lambda piece: tables.most[row, piece[0], column])
        return Extremes(
            _extreme(tables.least, tables.x_least, row, least, column),
            _extreme(tables.most, tables.x_most, row, most, column),
        )

    @cached_property
    def _chords(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Straight line between the displaced nodes of the member each piece belongs to, local axes.

        Its start and slope, (3, m, c), and where on it each piece begins, (m,).
        """
        moves, length = self._local_moves, self.structure.length
        if not self.pieces:
            return moves[:3], (moves[6:9] - moves[:3]) / length[:, None], np.zeros_like(length)
        first, slope, begin = np.empty_like(moves[:3]), np.empty_like(moves[:3]), np.empty_like(length)
        for pieces in self.pieces.values():
            numbers = [number for number, _ in pieces]
            start, last = numbers[0], numbers[-1]
            begin[numbers] = [place for _, place in pieces]
            first[:, numbers] = moves[:3, start, None]
            slope[:, numbers] = ((moves[6:9, last] - moves[:3, start]) / (begin[last] + length[last]))[:, None]
        return first, slope, begin

    def _line(self, member: str, x, column: int) -> np.ndarray:
        first, slope, _ = self._chords
        number = self._pieces(member)[0][0]
        shape = (3, *(1,) * np.ndim(x))
        line = (part[:, number, column].reshape(shape) for part in (first, slope))
        return next(line) + next(line) * np.asarray(x, dtype=float)


def work_out_together(results: Sequence[Result]) -> None:
    """Find diagrams and deflections of first-order results for the same loads in one go; they differ in joints only."""
    first, count = results[0], len(results[0].cases)
    runs, many = first.loads.runs, range(len(results))
    loads = {name: np.concatenate([getattr(runs, name) for _ in many], axis=-1) for name in ("spread", "slope", "jump")}
    whole = replace(
        first,
        loads=replace(first.loads, runs=replace(runs, **loads)),
        answer=beside([result.answer for result in results]),
    )
    for number, result in enumerate(results):
        own = slice(number * count, (number + 1) * count)
        for name in ("diagrams", "_deflections", "_local_moves"):
            vars(result)[name] = getattr(whole, name)[..., own]


def _extreme(values: np.ndarray, places: np.ndarray, row: int, piece: tuple[int, float], column: int) -> Extreme:
    number, begin = piece
    return Extreme(float(values[row, number, column]), float(begin + places[row, number, column]))


def _tables(runs: Runs, c: np.ndarray) -> Tables:
    """Extremes of polynomials (powers, quantities, m, S, c) over the flexible runs of every member."""
    begins, finishes, h = runs.stations[:, :-1], runs.stations[:, 1:], runs.length
    if not runs.flexible.all():
        # A rigid run is passed over by looking twice at a flexible one.
        member = np.arange(len(h))[:, None]
        run = np.where(runs.flexible, np.arange(h.shape[1]), np.argmax(runs.flexible, axis=1)[:, None])
        c = c[:, :, member, run]
        begins, finishes, h = begins[member, run], finishes[member, run], h[member, run]
    curved = np.nonzero(c[2:].any(axis=(0, -1)))
    own = c[(slice(None), *curved)]
    turns = zeros(derivative(own), h[curved[1:]][:, None])
    # Both ends of every run, and the turns of those that are not straight.
    t = np.zeros((2 + len(turns), *c.shape[1:]))
    values = np.empty_like(t)
    t[1], values[0], values[2:] = h[:, :, None], c[0], c[0]
    values[1] = evaluate(c, t[1])
    where = (slice(2, None), *curved)
    t[where], values[where] = turns, evaluate(own[:, None], turns)
    t += begins[:, :, None]
    # The station itself, not begin + length: a rounding error further on the diagram may have jumped.
    t[1] = finishes[:, :, None]
    shape = (*c.shape[1:3], c.shape[4], -1)
    values, places = (table.transpose(1, 2, 4, 0, 3).reshape(shape) for table in (values, t))
    least, most = np.argmin(values, axis=3)[..., None], np.argmax(values, axis=3)[..., None]
    return Tables(
        *(np.take_along_axis(table, index, axis=3)[..., 0] for table in (values, places) for index in (least, most))
    )
