"""What the sections judged by the general case 6.3.2.2 share: curve d, with M_cr of the piece itself."""

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.beam_description import Beam
from structcheck.checks.member_class import SectionClass
from structcheck.checks.member_forms import require_en1993
from structcheck.errors import NotCovered
from structcheck.findings import Finding, judged
from structcheck.standards.en1993_1_1 import buckling
from structcheck.standards.en1993_1_1 import lateral_torsional as code

CHECK = "lateral torsional buckling"
CURVE = "d"


def refuse_beyond(beam: Beam, what: str) -> None:
    """Raise NotCovered for steels, supports and methods that the stability of such a piece is not worked out for."""
    require_en1993(beam.section, beam.steel)
    if beam.steel.imperial:
        raise NotCovered(f"{beam.steel.name}: no EN buckling curve is assumed for a US steel")
    if beam.supports == "cantilever":
        raise NotCovered(f"lateral torsional buckling of {what} is not covered here")
    if beam.lateral_method == "rolled":
        raise NotCovered("6.3.2.3 is for rolled or equivalent welded I sections")


def general_finding(
    beam: Beam, M: float, M_cr: float, W: float, f_y: float, classified: SectionClass, basis: Basis
) -> Finding:
    """The finding of all pieces, each buckling by itself.

    M, M_cr  greatest moment at rated force and critical moment of one piece, N mm
    W        modulus of one piece by its class, mm3
    """
    lambda_LT = code.slenderness(W, f_y, M_cr)
    chi = 1.0
    if lambda_LT > 0.2:
        chi = code.reduction_general(code.phi_general(buckling.IMPERFECTION[CURVE], lambda_LT), lambda_LT)
    M_b = float(beam.pieces * code.buckling_resistance(chi, W, f_y, basis.gamma_M1))
    reason = (
        f"M_cr {M_cr / 1e6:.4g} kN m a piece, as if the greatest moment ran all along; lambda_LT {lambda_LT:.2f}, "
        f"curve {CURVE}, chi_LT {chi:.2f}; {classified.text}"
    )
    M_Ed = basis.ultimate * M * beam.pieces
    return judged(beam.name, CHECK, ULTIMATE.name, M_Ed, M_b, "kN m", f"{code.CODE} 6.3.2.2", reason=reason)
