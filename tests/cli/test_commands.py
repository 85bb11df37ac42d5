"""The commands as a user types them: contract numbers, exit status, JSON, help."""

import json
import shlex

import pytest

from structcheck.cli.question import HELP
from tests.report.conftest import EXAMPLES


def _json(run, command):
    status, out, _ = run(*shlex.split(command)[1:], "--json")
    return status, json.loads(out)


def _finding(data, check):
    return next(f for f in data["findings"] if f["check"] == check)


BOLT = (
    'structcheck bolts --size M16 --class 8.8 --rows 1 --columns 1 --plate "10 mm" --steel S275 '
    '--end "35 mm" --edge "30 mm"'
)


def test_one_m16_in_shear(run):
    """60.3 kN: EN 1993-1-8 Table 3.4, UK design tables to Eurocode 3 (read); a design force, --factor 1."""
    _, data = _json(run, BOLT + ' --shear "60 kN" --factor 1')
    finding = _finding(data, "bolt shear")
    assert finding["capacity"]["value"] == pytest.approx(60.3, abs=0.05)
    assert finding["capacity"]["unit"] == "kN"
    assert finding["demand"]["value"] == pytest.approx(60)


def test_one_m16_in_tension(run):
    """90.4 kN: the same tables (read)."""
    _, data = _json(run, BOLT + ' --tension "10 kN"')
    assert _finding(data, "bolt tension")["capacity"]["value"] == pytest.approx(90.4, abs=0.05)
    assert _finding(data, "bolt tension")["demand"]["value"] == pytest.approx(15)


@pytest.mark.parametrize(("strengths", "per_mm"), [("product standard", 0.891), ("EN 1993-1-1", 0.935)])
def test_a_fillet_of_4_mm_on_s275(strengths, per_mm, run):
    """f_u / (sqrt 3 beta_w gamma_M2) x 4 mm, derived: 410 and 430 MPa."""
    command = 'structcheck weld --throat "4 mm" --length "108 mm" --steel S275 --along "10 kN" --inspected'
    _, data = _json(run, f'{command} --strengths "{strengths}"')
    assert _finding(data, "weld throat")["capacity"]["value"] / 100 == pytest.approx(per_mm, abs=0.0005)


def test_a_weld_that_was_not_inspected_counts_seven_tenths(run):
    """Ours, printed."""
    command = 'structcheck weld --throat "4 mm" --length "108 mm" --steel S275 --along "10 kN"'
    _, plain = _json(run, command)
    _, seen = _json(run, command + " --inspected")
    ratio = _finding(plain, "weld throat")["capacity"]["value"] / _finding(seen, "weld throat")["capacity"]["value"]
    assert ratio == pytest.approx(0.7)
    assert any("not inspected" in a["text"] for a in plain["assumptions"])


def test_a_spring_of_5_mm_wire(run):
    """Rate 12.4 N/mm: EN 13906-1 R = G d^4 / (8 D^3 n), derived."""
    _, out, _ = run(
        *shlex.split(
            'spring --wire "5 mm" --mean "40 mm" --active 8 --free "120 mm" --fitted "110 mm" --pressed "90 mm" '
            '--lifts "5 kg"'
        )
    )
    assert "rate 12.4" in out


def test_a_solid_flat_at_its_plastic_limit_yields_at_the_valve(run):
    """EN bending 1.00, valve not stated: 1.25 of yield at F_max (derived: W_pl / W_el x 1.25 / 1.5)."""
    # M_pl,Rd = 20 x 80^2 / 4 x 225 MPa (over 16 mm thick) = 7.2 kN m = 1.5 F L / 4 with L = 600 mm: F = 32 kN.
    command = 'structcheck beam --section "FL 80x20" --steel S235 --span "600 mm" --load "32 kN"'
    status, data = _json(run, command)
    assert _finding(data, "bending")["utilisation"] == pytest.approx(1.0, abs=1e-9)
    assert _finding(data, "yield at greatest force")["utilisation"] == pytest.approx(1.25, abs=1e-9)
    assert (status, data["verdict"]) == (1, "fails")


@pytest.mark.parametrize("kind", HELP)
def test_the_example_of_the_help_answers(kind, run):
    """The command printed by --help works as printed, in text and in JSON, and both carry the caution."""
    words = shlex.split(HELP[kind][1])[1:]
    status, out, err = run(*words)
    assert status in (0, 1, 3)
    assert err == ""
    assert "qualified engineer" in out
    status_again, data = _json(run, HELP[kind][1])
    assert status_again == status
    assert {"holds": 0, "fails": 1, "incomplete": 3, "holds if": 3}[data["verdict"]] == status
    assert "qualified engineer" in data["caution"]
    assert data["basis"]["load_factor"] == 1.5


def test_the_help_tells_the_choices_and_what_takes_a_unit(capsys, monkeypatch):
    """A key with a few words lists them; a length is no bare number."""
    from structcheck.cli.main import main

    monkeypatch.setenv("COLUMNS", "200")
    with pytest.raises(SystemExit):
        main(["bolts", "--help"])
    text = capsys.readouterr().out
    assert "which way the plate runs from the group: along, across" in text
    assert "thread in or out of the shear plane: in (if not stated), out" in text
    assert "--plate PLATE" in text and "--mu MU" in text and "--planes COUNT" in text and "--factor NUMBER" in text


@pytest.mark.parametrize("kind", HELP)
def test_the_help_lists_the_needed_checks_and_an_example(kind, capsys):
    """What is on the list and not run is a `not checked` finding; the list is shown."""
    from structcheck.cli.main import main
    from structcheck.press.parts import KINDS

    with pytest.raises(SystemExit) as stop:
        main([kind.replace("_", "-"), "--help"])
    out = " ".join(capsys.readouterr().out.split())
    assert stop.value.code == 0
    for check in KINDS[kind].needed:
        assert check in out
    assert f"structcheck {kind.replace('_', '-')}" in out


def test_alone_it_says_what_to_do_next(run):
    """No traceback, no bare usage line."""
    status, out, _ = run()
    assert status == 0
    assert "structcheck check press.toml" in out


def test_a_section_is_listed_by_any_name_that_finds_it(run):
    """As it would be written for a beam; an unknown one gets the nearest three."""
    for name in ("SHS 100x100x5 cold", "shs100*100*5 cold"):
        status, out, _ = run("sections", name, "--json")
        assert (status, [row["designation"] for row in json.loads(out)["sections"]]) == (0, ["SHS 100x100x5"])
    status, _, err = run("sections", "SHS 100x100x7.3")
    assert status == 2
    assert err.count("SHS 100x100x") == 4


def test_sections_are_listed_with_their_properties(run):
    """SHS 100x100x5 cold formed: A 18.4 cm2, I 271 cm4 (EN 10219-2 table; recalled)."""
    status, out, _ = run("sections", "SHS 100x100x5", "--json")
    row = next(s for s in json.loads(out)["sections"] if s["designation"] == "SHS 100x100x5")
    assert status == 0
    assert row["standard"] == "EN 10219-2"
    assert row["properties"]["A"]["value"] == pytest.approx(18.4, abs=0.05)
    assert row["properties"]["A"]["unit"] == "cm2"
    assert row["properties"]["Iy"]["value"] == pytest.approx(271, abs=0.5)
    status, text, _ = run("sections", "RHS 1*")
    assert status == 0
    assert "RHS 100x50x4" in text
    assert "qualified engineer" in text


def test_loads_may_be_repeated_in_step(run):
    """Two loads at the quarter points bend less than one of the sum in the middle (derived: P a = 8 t / 2 x L / 4)."""
    base = 'structcheck beam --section "UPN 120" --steel S235 --span "800 mm" --pieces 2'
    _, one = _json(run, base + ' --load "8 t"')
    _, two = _json(run, base + ' --load "4 t" --at "200 mm" --load "4 t" --at "600 mm"')
    ratio = _finding(two, "bending")["demand"]["value"] / _finding(one, "bending")["demand"]["value"]
    assert ratio == pytest.approx(0.5)
    _, spread = _json(run, base + ' --load "20 kN/m"')
    # 1.5 x w L^2 / 8
    assert _finding(spread, "bending")["demand"]["value"] == pytest.approx(1.5 * 20 * 0.8**2 / 8)


def test_the_factor_one_takes_design_forces(run):
    """Strength checks use the load as given."""
    base = 'structcheck beam --section "UPN 120" --steel S235 --span "800 mm" --pieces 2 --load "80 kN"'
    _, design = _json(run, base + " --factor 1")
    assert _finding(design, "bending")["demand"]["value"] == pytest.approx(80 * 0.8 / 4)
    assert design["basis"]["load_factor"] == 1.0


def test_ties_of_a_press_file_are_printed(run):
    """`tied = true` of head and bed, in the words of the builder's own statement."""
    path = next(path for path in EXAMPLES if path.stem == "bookbinders_press")
    _, text, _ = run("check", str(path))
    words = " ".join(text.split())
    assert "its pieces are tied together at the load and at each support (stated); the ties are not judged" in words
