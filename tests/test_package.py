"""The package as it is installed: a wheel away from the checkout, its data with it."""

import subprocess
import sys
import venv
from pathlib import Path

import pytest

import structcheck

ROOT = Path(__file__).resolve().parent.parent


def test_it_is_typed_and_has_a_version():
    """py.typed is shipped; the version is semantic."""
    assert (Path(structcheck.__file__).parent / "py.typed").is_file()
    assert len(structcheck.__version__.split(".")) == 3


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """A wheel built from the checkout."""
    out = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "build", "--wheel", "--outdir", str(out), str(ROOT)]
    subprocess.run(build, check=True, capture_output=True, timeout=600)
    return next(out.glob("*.whl"))


def test_a_wheel_in_a_fresh_environment_finds_its_sections(wheel, tmp_path):
    """Away from the checkout, with its own data only."""
    venv.create(tmp_path / "venv", with_pip=True)
    python = tmp_path / "venv" / "bin" / "python"
    subprocess.run([python, "-m", "pip", "install", "-q", str(wheel)], check=True, capture_output=True, timeout=600)
    command = [tmp_path / "venv" / "bin" / "structcheck", "sections", "SHS 100x100x5"]
    done = subprocess.run(command, capture_output=True, text=True, cwd=tmp_path, timeout=60, check=False, env={})
    assert done.returncode == 0, done.stderr
    assert "SHS 100x100x5" in done.stdout
    where = "import structcheck.shapes.rows as r; print(r.data_folder())"
    found = subprocess.run([python, "-c", where], capture_output=True, text=True, cwd=tmp_path, check=True, env={})
    assert str(tmp_path) in found.stdout
