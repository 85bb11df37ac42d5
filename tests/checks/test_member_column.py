"""Of many loads on a column only the one that governs is told: the answer is that of judging them all."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structcheck.checks.basis import Basis, Case
from structcheck.checks.member_buckling import Lengths
from structcheck.checks.member_column import Column, Pressed, check_member_column
from structcheck.checks.member_stress import Station, along_member
from structcheck.checks.upright import Upright, check_upright
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up

shares = st.integers(0, 9).map(lambda tenths: tenths / 10)
rows = st.lists(st.tuples(shares, shares, shares), min_size=1, max_size=7)


@pytest.mark.parametrize("size", ["IPE 160", "SHS 80x80x5", "FL 80x10", "RHS 200x100x4"])
@given(rows=rows)
@settings(deadline=None, max_examples=25)
def test_the_load_that_governs_is_found_without_solving_them_all(size, rows):
    section = look_up(size).section
    loads = [
        Pressed(
            Case(f"case {number}", "ultimate"), n * section.A * 50, m_y * section.Wel_y * 200, m_z * section.Wel_z * 200
        )
        for number, (n, m_y, m_z) in enumerate(rows)
    ]

    def judged(loads):
        column = Column(Lengths(900.0, 900.0, 900.0))
        made = check_member_column("post", section, find_steel("S235"), 1, column, loads, Basis())
        return {finding.check: finding for finding in made.findings}

    together, alone = judged(loads), [judged([load]) for load in loads]
    for check in {check for one in alone for check in one}:
        each = {one[check].case: one[check] for one in alone if check in one}
        most = max(finding.utilisation for finding in each.values())
        assert together[check].utilisation == pytest.approx(most, rel=1e-11)
        assert each[together[check].case].utilisation == pytest.approx(most, rel=1e-11)
        assert together[check].reason == each[together[check].case].reason


def test_the_interaction_takes_the_greatest_moments_along_the_member():
    """EN 1993-1-1:2005 6.3.3(4) (memory): M_y,Ed and M_z,Ed are maxima along the member, be they at different ends."""
    case, other = Case("pressed", "ultimate"), Case("other", "ultimate")
    stations = [
        Station(case, "foot", N=-100e3, M_y=5e6, M_z=-1e6),
        Station(case, "head", N=-90e3, M_y=-2e6, M_z=4e6),
        Station(other, "head", N=10e3, M_y=1e6),
        Station(Case("rated", "rated"), "head", N=-500e3, M_y=9e6),
    ]
    assert along_member(stations) == [
        Station(case, "foot", N=-100e3, M_y=5e6, M_z=4e6),
        Station(other, "head", N=10e3, M_y=1e6),
    ]
    upright = {"name": "u", "section": look_up("IPE 160").section, "steel": find_steel("S235"), "length": 1500.0}
    apart, together = (
        {f.check: f for f in check_upright(Upright(**upright), (), Basis(), inside=inside).findings}
        for inside in (stations[:2], [stations[0]._replace(M_z=4e6)])
    )
    for check in ("buckling with bending", "lateral torsional buckling"):
        assert apart[check].utilisation == pytest.approx(together[check].utilisation, rel=1e-12)
