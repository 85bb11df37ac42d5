"""A beam of a frame that is pressed along its length as well as bent: EN 1993-1-1 6.3.1 and 6.3.3."""

from collections.abc import Sequence

from structcheck.checks.basis import Basis
from structcheck.checks.beam_description import Beam
from structcheck.checks.member_buckling import Lengths, modes
from structcheck.checks.member_column import NEEDED, Column, Pressed, check_member_column
from structcheck.checks.member_forms import require_en1993, yield_strength
from structcheck.checks.section_resistance import Station
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, NotNeeded, Outcome, not_checked
from structcheck.standards.en1993_1_1.buckling import CODE

NEGLIGIBLE = 0.04
"""Share of N_cr up to which buckling in compression may be left out, EN 1993-1-1 6.3.1.2(4)."""


def check_pressed_beam(beam: Beam, inside: Sequence[Station], basis: Basis) -> Outcome:
    """Buckling of a beam by the axial forces that its frame puts in; nothing where none presses it.

    Its ends are taken as held in place and free to turn, its whole span as the buckling length both ways.
    """
    pressed = [Pressed(s.case, -s.N, abs(s.M_y), abs(s.M_z)) for s in inside if s.N < 0 and s.case.limit == "ultimate"]
    if not pressed:
        return Outcome()
    try:
        require_en1993(beam.section, beam.steel)
        lengths = Lengths(beam.span, beam.span, beam.span)
        ways = modes(beam.section, beam.steel, yield_strength(beam.section, beam.steel), lengths)
    except NotCovered as reason:
        return Outcome(tuple(not_checked(beam.name, check, str(reason)) for check in NEEDED))
    N_cr = beam.pieces * min(way.N_cr for way in ways)
    most = max(load.N for load in pressed)
    if most <= NEGLIGIBLE * N_cr:
        why = f"N_Ed {most / 1e3:.3g} kN is at most 4 % of N_cr {N_cr / 1e3:.4g} kN: left out ({CODE} 6.3.1.2(4))"
        return Outcome(does_not_apply=tuple(NotNeeded(beam.name, check, why) for check in NEEDED))
    found = check_member_column(beam.name, beam.section, beam.steel, beam.pieces, Column(lengths), pressed, basis)
    text = "buckling along its length: its ends are held in place and against twisting, and free to turn"
    return found + Outcome(assumptions=(Assumption(beam.name, text),))
