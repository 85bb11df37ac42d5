"""What is told of wrong input."""

from structcheck.errors import InputError, Problem


def test_a_problem_found_twice_is_told_once_in_the_order_found():
    """Springs of one set all ask the same."""
    one, other = Problem("rod", "", "is missing", "a length"), Problem("wire", "", "is missing", "a length")
    assert InputError([one, other, Problem("rod", "", "is missing", "a length")]).problems == (one, other)
