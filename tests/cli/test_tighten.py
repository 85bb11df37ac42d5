"""`structcheck tighten`: torque, preload and scatter, for one bolt or as a table."""

import json

import pytest

ONE = ("tighten", "--size", "M16", "--class", "8.8", "--state", "oiled")


def test_one_bolt(run):
    """M16 8.8 at 0.12: 206 N m and 80.9 kN (VDI 2230 Table A1, 2003, memory), read there for other heads and holes."""
    status, out, _ = run(*ONE)
    assert status == 0
    size, bolt_class, state, torque, preload, least = out.splitlines()[3].split()
    assert (size, bolt_class, state) == ("M16", "8.8", "oiled")
    assert float(torque) == pytest.approx(206, rel=0.02)
    assert float(preload) == pytest.approx(80.9, rel=0.01)
    assert float(least) == pytest.approx(float(preload) / 2, abs=0.1)
    assert "the greatest preload is 2 times the least" in out


def test_json_has_the_same_with_units_and_the_caution(run):
    """Unrounded."""
    status, out, _ = run(*ONE, "--json")
    data = json.loads(out)
    (row,) = data["torques"]
    assert status == 0
    assert row["torque"]["unit"] == "N m"
    assert row["preload"]["unit"] == row["least preload"]["unit"] == "kN"
    assert row["preload"]["value"] / row["least preload"]["value"] == pytest.approx(row["scatter"])
    assert "qualified engineer" in data["caution"]


def test_tightened_by_hand_four_times_less_may_be_there(run):
    """Alpha_A 4 (VDI 2230, memory)."""
    _, out, _ = run(*ONE, "--by", "by hand", "--json")
    assert json.loads(out)["torques"][0]["scatter"] == pytest.approx(4)


def test_without_a_size_a_table_of_all(run):
    """Every size, the two usual classes, every state; the caution at its end."""
    status, out, _ = run("tighten")
    assert status == 0
    rows = [line for line in out.splitlines() if line.split(" ")[0][1:].isdigit()]
    _, data, _ = run("tighten", "--json")
    assert len(json.loads(data)["torques"]) == len(rows)
    assert len(rows) % 8 == 0
    assert len({line.split()[0] for line in rows}) > 5
    assert "This is a check, not a sign-off." in out


@pytest.mark.parametrize(
    ("words", "text"),
    [
        (("--size", "M17"), "--size"),
        (("--class", "unknown"), "cannot be preloaded"),
        (("--class", "7.7"), "--class"),
        (("--state", "wet"), '"dry" or "as delivered" or "oiled" or "greased"'),
        (("--by", "feel"), '"torque wrench" or "by hand"'),
    ],
)
def test_what_is_not_known_is_refused_in_words(words, text, run):
    """Status 2, on standard error, and as JSON where asked."""
    status, out, err = run("tighten", *words)
    assert (status, out) == (2, "")
    assert text in err
    _, out, _ = run("tighten", *words, "--json")
    assert json.loads(out)["errors"]
