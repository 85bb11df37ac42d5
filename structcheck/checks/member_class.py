"""Class of a cross-section under the stresses it carries, by EN 1993-1-1 Table 5.2.

Everything here takes numbers or arrays (one entry for each size tried) and answers in kind.
"""

from collections.abc import Callable
from functools import cached_property
from typing import Any, NamedTuple

import numpy as np

from structcheck.checks.angle_stress import gradients
from structcheck.checks.member_forms import form
from structcheck.formula import remembered
from structcheck.maths import maximum, minimum, where
from structcheck.record import record
from structcheck.shapes.shape import Element
from structcheck.standards.en1993_1_1 import classification as table
from structcheck.standards.en1993_1_5 import plates

SOURCE = table.TABLE


@record
class Part:
    """One part of a section and how far its class reaches.

    slenderness  c/t, or d/t of a tube
    limits       greatest slenderness of classes 1, 2 and 3; infinite where nothing is compressed
    psi          ratio of the elastic stresses at its ends, the more compressed below the line
    """

    element: Element
    slenderness: Any
    limits: tuple[Any, Any, Any]
    psi: Any

    @cached_property
    def number(self) -> Any:
        """Class 1 to 4, tested in that order: an outstand's class 3 limit may be the smaller one."""
        first, second, third = self.limits
        c_t = self.slenderness
        return where(c_t <= first, 1, where(c_t <= second, 2, where(c_t <= third, 3, 4)))


@record
class SectionClass:
    """The class of a whole section: that of its worst part."""

    parts: tuple[Part, ...]

    @cached_property
    def number(self) -> Any:
        """1 to 4."""
        worst = self.parts[0].number
        for part in self.parts[1:]:
            worst = maximum(worst, part.number)
        return worst if np.ndim(worst) else int(worst)

    @cached_property
    def text(self) -> str:
        """The class and the part that decides it, for a finding."""
        part = max(self.parts, key=lambda p: (int(p.number), _nearness(p)))
        if part.element.kind == "solid":
            return f"class 1 ({part.element.role}, solid)"
        if not np.isfinite(part.limits[0]):
            return "class 1 (no part compressed)"
        ratio = "d/t" if part.element.kind == "tube" else "c/t"
        limits = " / ".join(f"{float(limit):.1f}" for limit in part.limits)
        return f"class {self.number} ({part.element.role} {ratio} {float(part.slenderness):.1f}, limits {limits})"


def _nearness(part: Part) -> float:
    return float(part.slenderness / max(part.limits[0], 1.0))


def section_class(section: Any, f_y: Any, *, N: Any = 0.0, M_y: Any = 0.0, M_z: Any = 0.0) -> SectionClass:
    """The class under an axial force and moments, by the clause's own alpha and psi.

    section   a Section or a shape
    f_y       MPa
    N         axial force, compression positive (N); tension counts as none, which is safe
    M_y, M_z  moments, N mm; positive compresses the top and the right
    """
    N = maximum(N, 0.0)
    epsilon = table.epsilon(f_y)
    field = _field(section, N, M_y, M_z)
    parts = tuple(_part(section, element, f_y, epsilon, N, field) for element in section.elements)
    return SectionClass(parts)


@remembered
def class_in_bending(section: Any, f_y: float, axis: str, sense: float) -> SectionClass:
    """The class in bending alone about "y" or "z"; `sense` 1.0 compresses the top or the right, -1.0 the other side."""
    return section_class(section, f_y, **{f"M_{axis}": sense})


@remembered
def class_in_compression(section: Any, f_y: float) -> SectionClass:
    """The class in uniform compression."""
    return section_class(section, f_y, N=1.0)


class _Field(NamedTuple):
    """Compression over a section, MPa: at the centroid, and what it grows by along z and along y, MPa / mm."""

    mean: Any
    along_z: Any
    along_y: Any

    def at(self, y: Any, z: Any) -> Any:
        """The compression at a point."""
        return self.mean + self.bending(y, z)

    def bending(self, y: Any, z: Any) -> Any:
        """The moments' part of it; also between two points so far from one another."""
        return self.along_z * z + self.along_y * y


def _field(section: Any, N: Any, M_y: Any, M_z: Any) -> _Field:
    if form(section) == "angle":
        return _Field(N / section.A, *gradients(section, M_y, M_z))
    return _Field(N / section.A, M_y / section.Iy, M_z / section.Iz)


def _part(section: Any, element: Element, f_y: Any, epsilon: Any, N: Any, field: _Field) -> Part:
    c_t = element.c / element.t
    if element.kind == "solid":
        return Part(element, c_t, (np.inf, np.inf, np.inf), 1.0)
    if element.kind == "tube":
        return Part(element, c_t, (table.tube_1(epsilon), table.tube_2(epsilon), table.tube_3(epsilon)), 1.0)
    start, end = field.at(*element.start), field.at(*element.end)
    most, least = maximum(start, end), minimum(start, end)
    # A part at the neutral axis or in tension: rounding must not make a compressed one of it.
    idle = most <= 1e-9 * (abs(start) + abs(end) + 1e-30)
    psi = where(idle, 1.0, least / where(idle, 1.0, most))
    if element.kind == "internal":
        limits = internal_limits(_alpha(section, element, f_y, N, field), psi, epsilon)
    elif element.role == "leg":
        limits = _leg_limits(section, element, epsilon, N, psi, tip_most=end >= start)
    else:
        limits = outstand_limits(psi, epsilon, tip_most=end >= start)
    return Part(element, c_t, tuple(where(idle, np.inf, limit) for limit in limits), psi)


def _alpha(section: Any, element: Element, f_y: Any, N: Any, field: _Field) -> Any:
    """Compressed share of an internal part yielding through.

    Where bending alone turns the stress over at the part's middle, half of it and what the axial force adds, the
    parts alike taking it together; else the whole part, which is safe.
    """
    alike = sum(other.t * other.c for other in section.elements if other.role == element.role)
    (y_1, z_1), (y_2, z_2) = element.start, element.end
    middle = field.bending((y_1 + y_2) / 2, (z_1 + z_2) / 2)
    swing = field.bending((y_1 - y_2) / 2, (z_1 - z_2) / 2)
    turned = abs(middle) <= 1e-9 * abs(swing)
    symmetric = abs(section.edges[2] + section.edges[3]) <= 1e-9 * abs(section.edges[3])
    half = minimum(0.5 * (1 + N / (alike * f_y)), 1.0)
    return where(turned & (abs(swing) > 0) & symmetric, half, 1.0)


def internal_limits(alpha: Any, psi: Any, epsilon: Any) -> tuple[Any, Any, Any]:
    """Limits of c/t of an internal part for classes 1, 2 and 3."""
    more, less = maximum(alpha, 0.5), minimum(maximum(alpha, 1e-9), 0.5)
    over = alpha > 0.5
    first = _either(
        over,
        lambda: table.internal_1_mostly_compressed(more, epsilon),
        lambda: table.internal_1_mostly_tensioned(less, epsilon),
    )
    second = _either(
        over,
        lambda: table.internal_2_mostly_compressed(more, epsilon),
        lambda: table.internal_2_mostly_tensioned(less, epsilon),
    )
    third = _either(
        psi > -1 + 1e-9,
        lambda: table.internal_3_mostly_compressed(maximum(psi, -1.0), epsilon),
        lambda: table.internal_3_mostly_tensioned(minimum(psi, -1.0 + 1e-9), epsilon),
    )
    return first, second, third


def _either(condition: Any, then: Callable[[], Any], otherwise: Callable[[], Any]) -> Any:
    """`where`, but of numbers only the side that holds is computed, and shown."""
    if isinstance(condition, np.ndarray):
        return where(condition, then(), otherwise())
    return then() if condition else otherwise()


def outstand_limits(psi: Any, epsilon: Any, tip_most: Any) -> tuple[Any, Any, Any]:
    """Limits of c/t of an outstand; its whole width counts as compressed for classes 1 and 2, which is safe."""
    alpha = 1.0
    uniform = psi >= 1 - 1e-9
    third = _either(
        uniform,
        lambda: table.outstand_3_compressed(epsilon),
        lambda: table.outstand_3(outstand_factor(psi, tip_most), epsilon),
    )
    return table.outstand_1_tip_compressed(alpha, epsilon), table.outstand_2_tip_compressed(alpha, epsilon), third


def internal_factor(psi: Any) -> Any:
    """k_sigma of an internal part; below psi = -3 the value at -3, which is safe."""
    psi = maximum(psi, -3.0)
    return _either(
        psi >= 0,
        lambda: plates.internal_factor_compressed(maximum(psi, 0.0)),
        lambda: _either(
            psi > -1, lambda: plates.internal_factor_reversed(psi), lambda: plates.internal_factor_tensioned(psi)
        ),
    )


def outstand_factor(psi: Any, tip_most: Any) -> Any:
    """k_sigma of an outstand; below the table's psi the value at its end, which is safe."""

    def root() -> Any:
        return _either(
            psi >= 0,
            lambda: plates.outstand_factor_root_compressed(maximum(psi, 0.0)),
            lambda: plates.outstand_factor_root_reversed(minimum(maximum(psi, -1.0), 0.0)),
        )

    return _either(tip_most, lambda: plates.outstand_factor_tip(minimum(maximum(psi, -3.0), 1.0)), root)


def _leg_limits(section: Any, element: Element, epsilon: Any, N: Any, psi: Any, tip_most: Any) -> tuple[Any, Any, Any]:
    """An angle's leg: in compression sheet 3 with its two criteria and no class better than 3, else an outstand."""
    first, second, third = outstand_limits(psi, epsilon, tip_most)
    shape = getattr(section, "shape", section)
    fits = (shape.h / shape.t <= table.angle_3_leg(epsilon)) & (
        (shape.b + shape.h) / (2 * shape.t) <= table.angle_3_legs(epsilon)
    )
    pressed = N > 0
    third = where(pressed, where(fits, np.inf, 0.0), third)
    return where(pressed, 0.0, first), where(pressed, 0.0, second), third
