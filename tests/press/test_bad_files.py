"""What a wrong press file is told: the key as written, once, in the file's order, with a line that works."""

import tomllib

import pytest

from structcheck import questions
from structcheck.errors import InputError, NotCovered
from structcheck.press.model import check_description
from structcheck.press.parts import KINDS
from structcheck.press.reading import press_of, read_press
from structcheck.press.schema import PressFile
from structcheck.press.wording import example, item_of, table_of

HEAD = 'schema = 1\n[jack]\nrating = "8 t"\n'
BOLTS = '[[bolts]]\nname = "b"\nsize = "M16"\nclass = "8.8"\nplate = "10 mm"\nsteel = "S235"\nshear = 0.5\n'


def problems(text, top=HEAD):
    """Every problem of a file, below a jack unless said otherwise."""
    with pytest.raises(InputError) as error:
        read_press(top + text, "press.toml")
    return error.value.problems


def told(text, top=HEAD):
    """(key, fault, remedy) of every problem."""
    return [(p.key, f"{p.given} {p.fault}".strip(), p.remedy) for p in problems(text, top)]


def head(line):
    """A head with one more line."""
    return f'[head]\nsection = "UPN 120"\nsteel = "S235"\n{line}\n'


SIZES = [
    ('spreader = "150 x 150 x 25"', "has no unit", 'spreader = "150 x 150 x 25 mm"'),
    ('spreader = "150 x 150"', "is not a size", 'spreader = "120 x 120 x 20 mm"'),
    ('spreader = "150 x wide x 25 mm"', "is not a size", 'spreader = "120 x 120 x 20 mm"'),
    ('spreader = "150 x 0 x 25 mm"', "must be above zero", 'spreader = "120 x 120 x 20 mm"'),
    ('stiffeners = "thick"', "is not a size", 'stiffeners = "35 x 8 mm"'),
]


@pytest.mark.parametrize(("line", "fault", "remedy"), SIZES)
def test_a_size_in_one_text_is_told_once_under_its_own_key(line, fault, remedy):
    """Not once for each of along, across and thickness, which nobody wrote."""
    key, given = line.split(" = ")
    assert told(head(line)) == [(key, f"{given} {fault}", remedy)]


@pytest.mark.parametrize(
    ("text", "key", "fault", "remedy"),
    [
        ('[platen]\nname = "p"\n', "platen", "[platen] is one table", "[[platen]]"),
        ('[upright]\nname = "u"\n', "upright", "[upright] is one table", "[[upright]], or [uprights]"),
        ('[[head]]\nsection = "UPN 120"\n', "head", "[[head]] is a list of tables", "[head]"),
        ('[section]\nname = "x"\n', "section", "[section] is one table", "[[section]]"),
    ],
)
def test_one_bracket_too_few_or_too_many_is_named(text, key, fault, remedy):
    """`[platen]` where `[[platen]]` is meant, and the other way round."""
    assert told(text) == [(key, fault, remedy)]


def test_a_table_within_a_part_where_a_list_is_meant():
    """One load of a beam, without its brackets."""
    beam = '[[beam]]\nname = "b"\nsection = "UPN 120"\nsteel = "S235"\nspan = "700 mm"\nloads = { load = 1.0 }\n'
    assert told(beam) == [("loads", "is one table", 'loads = [{ load = "8 t" }]')]


def test_a_list_is_never_said_to_be_none():
    """Whatever is wrong inside it."""
    for key, value in (("layout", '["0 mm", 3]'), ("rows", "[2]"), ("at", "[3]")):
        assert not any("list is not a list" in fault for _, fault, _ in told(BOLTS + f"{key} = {value}\n"))


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ('[frame]\ncorners = "bolted"\n', 'corners = "unknown"'),
        ('[corner."head/left"]\nstiffness = "loose"\n', 'stiffness = "unknown"'),
    ],
)
def test_no_stiffness_is_invented(text, remedy):
    """A figure that looks measured would be believed."""
    assert [r for _, _, r in told(text)] == [remedy]


def test_a_relief_nobody_knows_is_left_out():
    """The greatest force is then 1.25 R; a made-up setting below the rating would be worse."""
    (problem,) = problems('relief = "unknown"\n[frame]\n', HEAD)
    assert problem.remedy == "leave relief out: 1.25 R is then taken"
    (problem,) = problems('relief = "11 x"\n[frame]\n', HEAD)
    assert problem.remedy in ("", 'relief = "11 t"')


@pytest.mark.parametrize(
    ("line", "remedy"),
    [
        ('plate = "thin"', 'plate = "10 mm"'),
        ('end = "short"', 'end = "35 mm"'),
        ('rows = "2"', "rows = 2"),
        ("at = 3", 'at = ["head/left", "head/right"]'),
    ],
)
def test_what_is_offered_could_stand_there(line, remedy):
    """A plate of 900 mm helps nobody."""
    text = BOLTS.replace('plate = "10 mm"\n', "" if line.startswith("plate") else 'plate = "10 mm"\n')
    assert remedy in [r for _, _, r in told(f"{text}{line}\n")]


def test_a_number_written_as_a_text_loses_its_quotes():
    """`turns = "30"`."""
    assert ("turns", '"30" is not a number', "turns = 30") in told('[[spring]]\nname = "s"\nturns = "30"\n')


def test_one_text_of_a_list_is_mended_in_its_list():
    """The other texts stay as they are."""
    beam = '[[beam]]\nname = "b"\nsection = "UPN 120"\nsteel = "S235"\nspan = "700 mm"\nload = 1.0\n'
    assert told(beam + 'held_at = ["100 mm", "300"]\n') == [
        ("held_at", '"300" has no unit', 'held_at = ["100 mm", "300 mm"]')
    ]


@pytest.mark.parametrize(("key", "remedy"), [("bat", ""), ("a", ""), ("gage", "gauge = 3"), ("zzz", "")])
def test_only_a_key_that_is_really_near_is_offered(key, remedy):
    """`t` or `at` is near to everything."""
    assert [(k, r) for k, fault, r in told(BOLTS + f"rows = 1\ncolumns = 1\n{key} = 3\n")] == [(key, remedy)]


def _fields(table, done):
    """Every field of a table and of the tables inside it."""
    if table in done:
        return
    done.add(table)
    for name, field in table.model_fields.items():
        yield table, field.alias or name, field
        inner = table_of(field.annotation)
        if inner is not None:
            yield from _fields(inner, done)


@pytest.mark.parametrize(
    ("table", "key", "field"),
    [pytest.param(t, k, f, id=f"{t.__name__}.{k}") for t, k, f in _fields(PressFile, set())],
)
def test_every_line_offered_is_toml(table, key, field):
    """What is told to be tried can be pasted; a list is offered as a list."""
    offered = example(key, field, str)
    if offered:
        value = tomllib.loads(offered)[key]
        assert (item_of(field.annotation) is not None) <= isinstance(value, list)


def test_problems_stand_in_the_order_of_the_file():
    """A builder mends from the top down; what is missing from a table follows what stands in it."""
    text = '[[weld]]\nname = "w"\nlength = "1"\n[[bolts]]\nname = "b"\nplate = "2"\n[jack]\nstroke = "3"\ncolour = 1\n'
    keys = [f"{p.part.split(' ')[0]}.{p.key}" for p in problems(text, "")]
    assert keys[0] == ".schema"
    assert keys[1:4] == ["weld.length", "weld.steel", "weld.throat"]
    assert keys.index("weld.along") < keys.index("bolts.plate") < keys.index("bolts.size")
    assert keys[-3:] == ["jack.stroke", "jack.colour", "jack.rating"]


def test_a_missing_table_comes_last_with_its_lines():
    """Lines that can be pasted."""
    *_, last = problems("schema = 1\n[frame]\nspan = 3\n", "")
    assert (last.key, last.remedy) == ("jack", '[jack]\nrating = "8 t"')
    assert str(last).endswith('  try:    [jack]\n          rating = "8 t"')


def test_a_missing_beam_of_the_frame_is_offered_as_a_table():
    """Each under its own name; `[head] section = ...` on one line is no TOML."""
    press = press_of({"schema": 1, "jack": {"rating": "8 t"}, "frame": {"span": "700 mm", "height": "1 m"}})
    with pytest.raises(InputError) as error:
        check_description(press)
    remedies = [p.remedy for p in error.value.problems if "is missing" in p.fault]
    assert [list(tomllib.loads(remedy)) for remedy in remedies] == [["head"], ["bed"], ["uprights"]]


def test_a_missing_key_does_not_hide_what_the_other_keys_need():
    """Pitch and gauge are asked in the same run as the steel nobody stated."""
    bolts = BOLTS.replace('steel = "S235"\n', "") + "rows = 2\ncolumns = 2\n"
    assert [key for key, _, _ in told(bolts)] == ["steel", "pitch", "gauge"]
    weld = '[[weld]]\nname = "w"\nthroat = "4 mm"\nlength = "80 mm"\nruns = 2\nat = "head/left"\n'
    assert [key for key, _, _ in told(weld)] == ["steel", "spacing"]
    upright = '[[upright]]\nname = "u"\nsection = "SHS 80x80x4"\nlength = "900 mm"\npush = 1.0\n'
    assert [key for key, _, _ in told(upright)] == ["steel"]
    spring = [key for key, _, _ in told('[[spring]]\nwire = "6 mm"\nfree = "515 mm"\n')]
    assert spring == ["name", "mean", "active", "fitted", "lifts", "pressed"]


def test_what_stands_elsewhere_is_not_asked_again():
    """The jack's stroke ends the spring's, a return set gives its height, a layout its places."""
    stroke = HEAD.replace("[jack]\n", '[jack]\nstroke = "150 mm"\n')
    assert "pressed" not in [key for key, _, _ in told('[[spring]]\nrate = "2 N/mm"\n', stroke)]
    both = '[[spring]]\nrate = "2 N/mm"\n[[return_set]]\nname = "r"\n'
    assert "fitted" not in [p.key for p in problems(both) if p.part.startswith("spring")]


def test_a_method_that_stops_before_a_check_leaves_every_check_undone(monkeypatch):
    """Never a traceback, never a pass: each needed check carries the reason."""
    from dataclasses import replace

    def stop(*_):
        raise NotCovered("no strength at 900 mm")

    monkeypatch.setitem(KINDS, "weld", replace(KINDS["weld"], run=stop))
    weld = {"throat": "4 mm", "length": "80 mm", "steel": "S235", "along": "40 kN"}
    asked = questions.ask("weld", weld)
    press = questions.check_press({"schema": 1, "jack": {"rating": "8 t"}, "weld": [{"name": "w", **weld}]})
    for result in (asked, press):
        undone = {f.check: f.reason for f in result.outcome.findings if f.verdict == "not checked"}
        assert {check: undone[check] for check in KINDS["weld"].needed} == dict.fromkeys(
            KINDS["weld"].needed, "no strength at 900 mm"
        )
        assert result.verdict == "incomplete"
