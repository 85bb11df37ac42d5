"""What a press file gives the analysis of its frame, in one hand."""

from structcheck.checks.basis import Basis
from structcheck.press.cases import Forces
from structcheck.press.frame_schema import FrameTables
from structcheck.press.schema import Jack, Limits
from structcheck.record import record
from structcheck.shapes.section import Section


@record
class Given:
    """A described frame and what surrounds it.

    tables    the frame's tables of a press file; `tables.frame` must be there
    jack      the jack's table
    forces    rated, greatest and ultimate force of all jacks
    basis     factors and use
    limits    the user's limits of opening and deflection
    sections  rows of the user's own list
    """

    tables: FrameTables
    jack: Jack
    forces: Forces
    basis: Basis
    limits: Limits | None = None
    sections: tuple[Section, ...] = ()
