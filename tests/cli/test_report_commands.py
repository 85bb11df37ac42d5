"""`rated`, `report`, `check --watch` and the record, as a user meets them."""

import json
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_the_command_answers_in_text_and_in_json(run, tmp_path):
    """The same rating in both, with the record and the caution."""
    path = tmp_path / "press.toml"
    path.write_text(
        'schema = 1\ntitle = "One weld"\n[jack]\nrating = "4 t"\n[use]\nstatic = true\n[[weld]]\nname = "eye"\n'
        'throat = "4 mm"\nlength = "90 mm"\nruns = 2\nsteel = "S275"\nalong = 1.0\ninspected = true\n',
        encoding="utf-8",
    )
    status, text, _ = run("rated", path, "--date", "2025-01-31")
    assert status == 0
    assert text.startswith("One weld: holds a jack of 97.41 kN (9.933 t)\n")
    assert "2025-01-31" in text
    assert "qualified engineer" in text
    status, text, _ = run("rated", path, "--json")
    data = json.loads(text)
    assert data["strength"]["rating"] == data["rating"] == {"value": 97.41, "unit": "kN"}
    assert data["stiffness"] == {
        "rating": None,
        "reason": "no limit of stiffness is stated",
        "governing": None,
        "next": [],
    }


def test_the_same_input_gives_the_same_bytes_but_for_the_date(run):
    """In text and in JSON; the date is the only thing that moves."""
    path = ROOT / "examples" / "orchard_press.toml"
    for words in ((), ("--json",), ("--working",)):
        one, two = (run("check", path, "--date", "2025-01-31", *words)[1] for _ in range(2))
        other = run("check", path, "--date", "2025-02-28", *words)[1]
        assert one == two
        assert one != other
        assert one.replace("2025-01-31", "2025-02-28") == other


def test_the_record_carries_the_hash_of_the_file(run):
    """As sha256sum gives it, with version and edition."""
    import hashlib

    path = ROOT / "examples" / "orchard_press.toml"
    record = json.loads(run("check", path, "--json", "--date", "2025-01-31")[1])["record"]
    assert record["input_sha256"] == hashlib.sha256(path.read_bytes()).hexdigest()
    assert record["date"] == "2025-01-31"
    assert record["version"].count(".") == 2
    assert "EN 1993-1-8:2005" in record["edition"]


def test_a_date_that_is_none_is_refused(run):
    """With the way to write it."""
    for given in ("31.1.2025", "2025-02-30", "today", "2025-1-3"):
        status, _, errors = run("check", ROOT / "examples" / "orchard_press.toml", "--date", given)
        assert status == 2
        assert errors == f'--date: "{given}" is no date\n  wanted: year-month-day\n  try:    --date 2025-01-31\n'


def test_watching_tells_what_changed(tmp_path, monkeypatch, capsys):
    """First the whole answer; after a save only what moved; a file broken by the save is told and survived."""
    from structcheck.cli import watch

    text = (
        'schema = 1\n[jack]\nrating = "4 t"\n[use]\nstatic = true\n[[weld]]\nname = "eye"\nthroat = "4 mm"\n'
        'length = "90 mm"\nruns = 2\nsteel = "S275"\nalong = 1.0\ninspected = true\n'
    )
    path = tmp_path / "press.toml"
    path.write_text(text, encoding="utf-8")
    saves = iter([text.replace("4 t", "40 t"), text.replace("length", "lenght"), text])

    def save(_seconds):
        later = next(saves, None)
        if later is not None:
            path.write_text(later, encoding="utf-8")

    monkeypatch.setattr(watch.time, "sleep", save)
    assert watch.watch(str(path), (), looks=4) == 0
    out = capsys.readouterr().out
    first, second, third, fourth = out.split("== ")[1:]
    assert "Press: HOLDS" in first
    assert "HOLDS -> FAILS" in second
    assert "  was     0.41 holds       eye, weld throat (ultimate)\n  now     4.03 fails" in second
    assert "lenght is not a key here" in third.replace("lenght:  is", "lenght is").replace("lenght: is", "lenght is")
    assert "FAILS -> HOLDS" in fourth
