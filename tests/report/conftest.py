"""What the tests of the report share: commands, pages of all examples, and a real browser."""

import shutil
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))

NO_BROWSER = (
    "the page is tested in Chromium, which is not here: apt-get install chromium chromium-driver "
    "(Debian); nothing is skipped in its place"
)


@pytest.fixture
def run(capsys):
    """Run a command in this process: `run("check", "press.toml")` gives (status, output, errors)."""
    from structcheck.cli.main import main

    def go(*words):
        status = main([str(word) for word in words])
        captured = capsys.readouterr()
        return status, captured.out, captured.err

    return go


@pytest.fixture(scope="session")
def pages(tmp_path_factory):
    """The page of each example: name -> (path of the HTML, what it shows)."""
    from structcheck.report.page import page

    folder = tmp_path_factory.mktemp("pages")
    found = {}
    for path in EXAMPLES:
        made = page(path.read_text(encoding="utf-8"), path.name, date="2025-01-31")
        target = folder / f"{path.stem}.html"
        target.write_text(made.html, encoding="utf-8")
        found[path.stem] = (target, made)
    return found


@pytest.fixture(scope="session")
def browser(tmp_path_factory):
    """One headless Chromium for all tests; its network log is kept."""
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service

    program, driver = shutil.which("chromium"), shutil.which("chromedriver")
    if not program or not driver:
        pytest.fail(NO_BROWSER, pytrace=False)
    options = webdriver.ChromeOptions()
    options.binary_location = program
    switches = (
        "--headless=new --no-sandbox --disable-gpu --no-first-run --disable-background-networking "
        "--disable-component-update --disable-sync --hide-scrollbars"
    )
    for switch in switches.split():
        options.add_argument(switch)
    options.add_argument(f"--user-data-dir={tmp_path_factory.mktemp('profile')}")
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    opened = webdriver.Chrome(options=options, service=Service(driver))
    yield opened
    opened.quit()
