"""The frame's face to the press: from the tables that describe it to what every part must carry."""

from structcheck.checks.basis import Basis
from structcheck.press.cases import Forces
from structcheck.press.frame.c_frame import analyse_c
from structcheck.press.frame.meaning import refuse_what_means_nothing
from structcheck.press.frame.members import analyse_members
from structcheck.press.frame.o_frame import analyse_o
from structcheck.press.frame.ringed import analyse_ring
from structcheck.press.frame.words import EndForces, FrameAnswer, PlaceForce
from structcheck.press.frame_schema import FrameTables
from structcheck.press.schema import Jack, Limits
from structcheck.shapes.section import Section

__all__ = ["EndForces", "FrameAnswer", "PlaceForce", "analyse"]

_SHAPES = {
    "closed": analyse_ring,
    "H": analyse_ring,
    "posts": analyse_ring,
    "C": analyse_c,
    "O": analyse_o,
    "members": analyse_members,
}


def analyse(
    tables: FrameTables,
    jack: Jack,
    forces: Forces,
    basis: Basis,
    *,
    limits: Limits | None = None,
    sections: tuple[Section, ...] = (),
) -> FrameAnswer:
    """What every part of the described frame must carry, and what the frame itself answers.

    tables    the frame's tables of a press file; `tables.frame` must be there
    jack      the jack's table
    forces    rated, greatest and ultimate force of all jacks
    limits    the user's limits of opening and deflection
    sections  rows of the user's own list

    Raises InputError with every fault of the description.
    """
    refuse_what_means_nothing(tables)
    return _SHAPES[tables.frame.shape](tables, jack, forces, basis, limits, sections)
