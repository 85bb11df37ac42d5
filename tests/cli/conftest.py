"""Running the command line as a user does."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def run(capsys):
    """Run a command in this process: `run("check", "press.toml")` gives (status, output, errors)."""
    from structcheck.cli.main import main

    def go(*words):
        status = main([str(word) for word in words])
        captured = capsys.readouterr()
        return status, captured.out, captured.err

    return go


@pytest.fixture
def process():
    """Run a command in a process of its own, text on standard input."""

    def go(*words, stdin=b""):
        command = [sys.executable, "-m", "structcheck", *map(str, words)]
        done = subprocess.run(command, input=stdin, capture_output=True, cwd=ROOT, timeout=120, check=False)
        return done.returncode, done.stdout.decode(), done.stderr.decode()

    return go
