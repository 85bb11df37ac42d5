"""A section with metal lost from every face."""

from dataclasses import replace

from structcheck.errors import InputError, Problem
from structcheck.shapes.section import Section

_TWICE = ("h", "b", "t", "tw", "tf", "D", "a", "t_nominal")
_GROWING = ("ri", "r", "r1")
_SHRINKING = ("ro", "u")


def corroded(section: Section, loss: float) -> Section:
    """The section with `loss` mm gone from every face, the inside of tubes too; itself where nothing is lost.

    Raises InputError where no wall is left, or where the section is not made of plain dimensions.
    """
    if not loss:
        return section
    wanted = "a loss per face smaller than half the thinnest wall"
    if loss < 0:
        raise InputError(Problem("corrosion", f"{loss:g} mm", "is negative", wanted))
    if section.geometry is not None:
        raise InputError(Problem("corrosion", f"{loss:g} mm", "cannot be taken from a section made of plates", "0 mm"))
    dimensions = {
        name: value - 2 * loss
        if name in _TWICE
        else value + loss
        if name in _GROWING
        else max(value - loss, 0.0)
        if name in _SHRINKING
        else value
        for name, value in section.dimensions.items()
    }
    if any(dimensions[name] <= 0 for name in _TWICE if name in dimensions):
        raise InputError(Problem("corrosion", f"{loss:g} mm", "leaves no wall", wanted))
    return replace(section, designation=f"{section.designation} less {loss:g} mm a face", dimensions=dimensions)
