"""The frame's face to the press: from the tables that describe it to what every part must carry."""

from structcheck.press.frame.c_frame import solved_c
from structcheck.press.frame.given import Given
from structcheck.press.frame.meaning import refuse_what_means_nothing
from structcheck.press.frame.members import solved_members
from structcheck.press.frame.o_frame import solved_o
from structcheck.press.frame.ringed import solved_ring
from structcheck.press.frame.words import EndForces, FrameAnswer, PlaceForce

__all__ = ["EndForces", "FrameAnswer", "Given", "PlaceForce", "analyse"]

_SHAPES = {
    "closed": solved_ring,
    "H": solved_ring,
    "posts": solved_ring,
    "C": solved_c,
    "O": solved_o,
    "members": solved_members,
}


def analyse(given: Given) -> FrameAnswer:
    """What every part of the described frame must carry, and what the frame itself answers.

    Raises InputError with every fault of the description.
    """
    refuse_what_means_nothing(given.tables)
    return _SHAPES[given.tables.frame.shape](given)[0]
