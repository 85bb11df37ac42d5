"""Of the loads of an end plate only those that can govern are judged: the answer is that of judging all."""

import math
from unittest.mock import patch

import pytest
from end_plate_parts import BASIS, CORNER, EXTENDED, ON_TUBE
from hypothesis import example, given, settings
from hypothesis import strategies as st

from structcheck.checks import bolts_end_plate
from structcheck.checks.basis import Case
from structcheck.checks.bolts_end_plate import EndPlateLoads, check_end_plate
from structcheck.press.end_plates import turned_over

rows = st.lists(
    st.tuples(
        st.sampled_from(["ultimate", "greatest force", "rated"]),
        st.sampled_from([0.0, 1e6, 4e6, -2e6, 6e6]),
        st.sampled_from([0.0, 0.0, 3e3, 20e3]),
        st.sampled_from([0.0, 10e3, 60e3, -60e3]),
        st.sampled_from([None, 0.0, 40.0, 190.0]),
    ),
    min_size=2,
    max_size=8,
)


@pytest.mark.parametrize("part", [CORNER, EXTENDED, ON_TUBE], ids=["corner", "extended", "on tube"])
@given(rows=rows, both_ways=st.booleans())
@example(rows=[("ultimate", 4e6, 3e3, 60e3, 0.0), ("ultimate", -2e6, 0.0, 0.0, 0.0)], both_ways=False)
@example(rows=[("ultimate", 4e6, 3e3, 60e3, 0.0), ("ultimate", 3.9e6, 0.0, 0.0, None)], both_ways=True)
@example(rows=[("ultimate", 4e6, 0.0, 0.0, 0.0), ("ultimate", 3.9e6, 0.0, 0.0, 190.0)], both_ways=True)
@example(rows=[("ultimate", 4e6, 3e3, 10e3, 0.0), ("ultimate", 3.9e6, 0.0, 60e3, 0.0)], both_ways=True)
@settings(deadline=None, max_examples=25)
def test_loads_that_another_outdoes_change_no_answer(part, rows, both_ways):
    loads = [EndPlateLoads(Case(f"case {n}", limit), *parts) for n, (limit, *parts) in enumerate(rows)]
    turned = turned_over(part) if both_ways else None
    few = check_end_plate(part, loads, BASIS, turned)
    unbounded = patch.object(bolts_end_plate, "_most", lambda *_: math.inf)
    with patch.object(bolts_end_plate, "_hardest", lambda seen: seen), unbounded:
        every_one = check_end_plate(part, loads, BASIS, turned)
    assert [f.check for f in few.findings] == [f.check for f in every_one.findings]
    for one, other in zip(few.findings, every_one.findings, strict=True):
        assert one.verdict == other.verdict, one.check
        use = other.utilisation
        assert one.utilisation == (use if use is None else pytest.approx(use, rel=1e-9)), one.check
        assert one.reason == other.reason or one.utilisation is not None, one.check
    assert few.answers == every_one.answers
    assert [t.value for t in few.times_on_yield] == pytest.approx([t.value for t in every_one.times_on_yield], rel=1e-9)
