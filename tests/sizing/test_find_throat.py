"""The smallest throat that holds, in half millimetres."""

from dataclasses import replace

import pytest

from structcheck.checks.basis import Basis, from_rated
from structcheck.checks.weld import Weld, WeldLoads, check_weld
from structcheck.materials.steels import find_steel
from structcheck.sizing.welds import find_throat

STATIC = Basis(static=True)
SEAM = Weld(name="seam", throat=4.0, length=120.0, runs=2, steel=find_steel("S275"), inspected=True)


def _loads(force):
    return from_rated(STATIC, lambda c, f: WeldLoads(c, force * f, 0.0))


def _whole(found):
    return {f.check: f.verdict for f in found.outcome.findings}


def test_the_least_throat_that_holds_and_the_next_smaller_failing():
    """150 kN x 1.5 on 2 x (120 - 2a) a at 222.8 MPa: 4.5 bears 222.6 kN, 5 bears 245.1 kN; by hand."""
    found = find_throat(SEAM, _loads(150e3), STATIC)
    assert (found.throat, found.smaller) == (5.0, 4.5)
    assert found.smaller_fails.check == "weld throat"
    assert found.smaller_fails.capacity.value == pytest.approx(2 * (120 - 9) * 4.5 * 222.79, rel=1e-4)
    assert set(_whole(found).values()) == {"holds"}


@pytest.mark.parametrize("force", [1e3, 60e3, 110e3, 180e3, 300e3])
def test_what_is_found_holds_and_what_is_below_does_not(force):
    """Put back into the check."""
    found = find_throat(SEAM, _loads(force), STATIC)
    held = check_weld(replace(SEAM, throat=found.throat), _loads(force), STATIC)
    assert all(f.verdict == "holds" for f in held.findings)
    if found.smaller is None:
        assert found.throat == 3.0
    else:
        below = check_weld(replace(SEAM, throat=found.smaller), _loads(force), STATIC)
        assert any(f.verdict == "fails" for f in below.findings)


def test_none_holds():
    """Said, with the largest that was tried."""
    found = find_throat(SEAM, _loads(2e6), STATIC)
    assert found.throat is None
    assert found.reason == "no throat up to 15 mm holds: weld throat fails last; make the runs longer or more"
    assert found.smaller == 15.0


def test_what_is_not_judged_has_no_size():
    """A root that opens: the reason of the check."""
    single = Weld(name="seam", throat=4.0, length=120.0, steel=find_steel("S275"))
    found = find_throat(single, from_rated(STATIC, lambda c, f: WeldLoads(c, 0.0, 1e3 * f)), STATIC)
    assert found.throat is None
    assert "4.12" in found.reason
