"""The size lists, and a user's own."""

import csv

import pytest

from structcheck.errors import InputError
from structcheck.shapes.families import FAMILIES
from structcheck.shapes.library import look_up
from structcheck.shapes.rows import data_folder, read_csv

HEAD = "designation,family,route,h,b,t,D,standard,provenance,note\n"


def written(folder, text: str):
    """A file with the text."""
    path = folder / "yard.csv"
    path.write_text(text, encoding="utf-8")
    return path


def faults(path) -> list[tuple[str, str, str]]:
    """Place, key and fault of every problem a file raises."""
    with pytest.raises(InputError) as caught:
        read_csv(path)
    assert all(problem.file == str(path) for problem in caught.value.problems)
    return [(problem.part, problem.key, problem.fault) for problem in caught.value.problems]


def test_a_yard_s_own_sizes_are_found(tmp_path):
    """Rows of several families stand in one file; inches in columns of their own; empty lines are passed over."""
    head = "designation,family,b,t,b_in,t_in,standard,provenance\n"
    path = written(tmp_path, head + "FL 85x10,FL,85,10,,,EN 10058,own\n,,,,,,,\nFL 3x1/2,fl,,,3,.5,ASTM A36,own\n")
    first, second = read_csv(path)
    assert look_up("flat 85x10", [first, second]).section is first
    assert second.dimensions == pytest.approx({"b": 76.2, "t": 12.7})
    assert second.family == "FL"
    assert second.route == "bar"


def test_the_readme_s_example_is_read(tmp_path):
    """The rows shown to a builder work as shown."""
    text = (data_folder() / "README.md").read_text(encoding="utf-8")
    block = [line[4:] for line in text.splitlines() if line.startswith("    ")]
    sections = read_csv(written(tmp_path, "\n".join(block) + "\n"))
    assert [section.designation for section in sections] == ["SHS 70x70x4", "FL 85x10"]
    assert sections[0].dimensions["ro"] == 8.0


def test_every_bad_cell_of_a_file_is_named_at_once(tmp_path):
    """Row, column, what stands there and what is wanted."""
    path = written(
        tmp_path,
        HEAD
        + 'SHS 70x70x4,SHS,cold formed,70,70,"4,0",,EN,own,\n'
        + "SHS 70x70x5,SHS,warm,70,70,5,,EN,own,\n"
        + "XYZ 1,XYZ,,1,1,1,,EN,own,\n"
        + "CHS 60x3,CHS,,,,3,,EN,own,\n"
        + ",SHS,,70,70,5,,EN,own,\n"
        + "CHS 60x30,CHS,,,,30,60,EN,own,\n"
        + "SHS 20x20x8,SHS,,20,20,8,,EN,own,\n"
        + "SHS 70,SHS,,-70,70,5,,EN,own,\n"
        + "SHS 71,SHS,,nan,70,5,,EN,own,\n"
        + "RHS 40x80x4,RHS,,40,80,4,,EN,own,\n"
        + "short,SHS\n",
    )
    assert faults(path) == [
        ("row 2", "t", "is no usable dimension"),
        ("row 3", "route", "is no route of SHS"),
        ("row 4", "family", "is no known family"),
        ("row 5", "D", "is empty, and CHS needs it"),
        ("row 6", "designation", "is empty"),
        ("row 7", "dimensions", "the wall fills the section"),
        ("row 8", "dimensions", "the outside corner radius does not fit"),
        ("row 9", "h", "is no usable dimension"),
        ("row 10", "h", "is no usable dimension"),
        ("row 11", "dimensions", "makes no sound section"),
        ("row 12", "", "has more or fewer cells than the first row"),
    ]


def test_a_bad_cell_reads_like_every_other_error(tmp_path):
    """Place, what was found, what is wanted."""
    path = written(tmp_path, HEAD + 'SHS 70x70x4,SHS,cold formed,70,70,"4,0",,EN,own,\n')
    with pytest.raises(InputError) as caught:
        read_csv(path)
    assert str(caught.value) == (
        f'{path}, row 2, t: "4,0" is no usable dimension\n  wanted: a number from 0 to 5000 mm, point for decimals'
    )


def test_bad_columns_are_named(tmp_path):
    """A missing, an unknown and a doubled column."""
    path = written(tmp_path, "designation,family,width,t,t,standard\nFL 1x1,FL,1,1,1,EN\n")
    assert faults(path) == [
        ("first row", "provenance", "column is missing"),
        ("first row", "width", "is no known column"),
        ("first row", "t", "stands there twice"),
    ]


@pytest.mark.parametrize("content", [b"", b"\xff\xfe\x00", b'a,b\n"1', b"\x00\x01\x02"])
def test_a_file_that_is_no_table_is_refused(tmp_path, content):
    """Binary and empty files give words, not a traceback."""
    path = tmp_path / "yard.csv"
    path.write_bytes(content)
    with pytest.raises(InputError):
        read_csv(path)


def test_a_missing_file_is_refused(tmp_path):
    """The error says that it cannot be read."""
    with pytest.raises(InputError, match="cannot be read"):
        read_csv(tmp_path / "none.csv")


def test_the_folder_holds_the_files_the_families_name():
    """No file too many, none too few; every row has its standard and a provenance of ours; no property columns."""
    folder = data_folder()
    files = {file for family in FAMILIES.values() for file in family.files}
    # The stock of springs lies beside the sections and is read by its own reader.
    assert {path.name for path in folder.glob("*.csv")} - {"springs_stock.csv"} == files
    for path in (folder / file for file in files):
        with open(path, newline="", encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
        assert rows
        assert {row["provenance"] for row in rows} <= {"read", "memory"}
        assert all(row["standard"] for row in rows)
        assert not {"mass", "A", "Iy", "source"} & set(rows[0])


def test_sizes_of_bars_are_remembered_and_marked_so():
    """No bar or flat size with a thickness was read."""
    for file in ("flats.csv", "round_bars.csv", "square_bars.csv", "angles.csv"):
        assert {section.provenance for section in read_csv(data_folder() / file)} == {"memory"}
