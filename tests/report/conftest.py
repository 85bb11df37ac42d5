"""Running the command line as a user does, and what the pages' tests share."""

import pytest


@pytest.fixture
def run(capsys):
    """Run a command in this process: `run("check", "press.toml")` gives (status, output, errors)."""
    from structcheck.cli.main import main

    def go(*words):
        status = main([str(word) for word in words])
        captured = capsys.readouterr()
        return status, captured.out, captured.err

    return go
