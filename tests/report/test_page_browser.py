"""The page in a real browser: what a reader on a phone, a printer or a screen reader meets."""

import base64
import json
import re
from itertools import pairwise

import pytest
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

from structcheck.report.page import page
from tests.report.conftest import EXAMPLES

NAMES = [path.stem for path in EXAMPLES]
each_example = pytest.mark.parametrize("name", NAMES)

CONTRAST = """
const canvas = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
function rgb(colour) {
  canvas.clearRect(0, 0, 1, 1); canvas.fillStyle = colour; canvas.fillRect(0, 0, 1, 1);
  return [...canvas.getImageData(0, 0, 1, 1).data];
}
function light([r, g, b]) {
  const part = (v) => { v /= 255; return v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
  return 0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b);
}
function behind(element) {
  for (let one = element; one; one = one.parentElement) {
    const colour = rgb(getComputedStyle(one).backgroundColor);
    if (colour[3] > 250) return colour;
  }
  return rgb('white');
}
const low = [];
for (const details of document.querySelectorAll('details')) details.open = true;
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
  const node = walker.currentNode, element = node.parentElement;
  if (!node.textContent.trim() || ['SCRIPT', 'STYLE', 'title'].includes(element.tagName)) continue;
  const style = getComputedStyle(element);
  if (style.visibility === 'hidden') continue;
  const inSvg = element.closest('svg');
  const front = rgb(inSvg ? style.fill : style.color), back = behind(inSvg || element);
  const [a, b] = [light(front), light(back)].sort((x, y) => y - x);
  const ratio = (a + 0.05) / (b + 0.05);
  if (ratio < 4.5) low.push([node.textContent.trim().slice(0, 40), ratio.toFixed(2)]);
}
return low;
"""

LETTERS = """
const bad = [];
for (const svg of document.querySelectorAll('figure svg')) {
  const name = svg.getAttribute('aria-labelledby'), paper = svg.getBoundingClientRect();
  const scale = svg.getScreenCTM().a;
  const told = [...svg.querySelectorAll('text')].filter((one) => one.textContent.trim()).map((one) => ({
    words: one.textContent.trim(), at: one.getBoundingClientRect(),
    size: parseFloat(getComputedStyle(one).fontSize) * scale,
  }));
  told.forEach(({words, at, size}, number) => {
    if (size < 11) bad.push([name, 'small', words]);
    const out = Math.max(paper.left - at.left, at.right - paper.right, paper.top - at.top, at.bottom - paper.bottom);
    if (out > 1) bad.push([name, 'cut', words]);
    for (const other of told.slice(number + 1)) {
      const wide = Math.min(at.right, other.at.right) - Math.max(at.left, other.at.left);
      const high = Math.min(at.bottom, other.at.bottom) - Math.max(at.top, other.at.top);
      if (wide > 1.5 && high > 2.5) bad.push([name, 'overlap', words, other.words]);
    }
  });
}
return bad;
"""


def _open(browser, target, *, width=1100, dark=False):
    size = {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False}
    browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
    scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [scheme]})
    browser.get_log("browser")
    browser.get_log("performance")
    browser.get(target.as_uri())


@each_example
def test_nothing_is_fetched_and_nothing_is_complained_of(name, browser, pages):
    """The only request is the file itself; the console stays empty."""
    target, _ = pages[name]
    _open(browser, target)
    assert browser.get_log("browser") == []
    messages = [json.loads(entry["message"])["message"] for entry in browser.get_log("performance")]
    asked = [m["params"]["request"]["url"] for m in messages if m["method"] == "Network.requestWillBeSent"]
    assert set(asked) - {"data:,"} == {target.as_uri()}


@each_example
def test_nothing_scrolls_sideways_on_a_phone(name, browser, pages):
    """At 360 pixels, all working open."""
    _open(browser, pages[name][0], width=360)
    browser.execute_script("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    assert browser.execute_script("return document.documentElement.scrollWidth") <= 360


def test_a_cell_reads_as_one_text_on_a_phone(browser, pages):
    """Every piece of a cell stands beside its label, an index beside its letter."""
    _open(browser, pages["bearing_press"][0], width=360)
    script = """return [...document.querySelectorAll('td sub')].map((one) => {
      const cell = one.closest('td').getBoundingClientRect(), label = 6 * 16;
      return one.getBoundingClientRect().left - cell.left - label;
    })"""
    found = browser.execute_script(script)
    assert found
    assert min(found) > 0


@pytest.mark.parametrize("width", [360, 1100])
@each_example
def test_every_letter_of_a_drawing_can_be_read(name, width, browser, pages):
    """At least 11 pixels high, none cut at the edge, none over another."""
    _open(browser, pages[name][0], width=width)
    assert browser.execute_script(LETTERS) == []


@each_example
def test_headings_tables_and_figures_say_what_they_are(name, browser, pages):
    """One h1, no level left out; headers with scope; every drawing with words."""
    _open(browser, pages[name][0])
    levels = [int(h.tag_name[1]) for h in browser.find_elements(By.CSS_SELECTOR, "h1, h2, h3, h4, h5, h6")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    for table in browser.find_elements(By.TAG_NAME, "table"):
        assert table.find_elements(By.CSS_SELECTOR, "caption")
        assert table.find_elements(By.CSS_SELECTOR, "thead th[scope=col]")
        rows = table.find_elements(By.CSS_SELECTOR, "tbody tr")
        assert len(table.find_elements(By.CSS_SELECTOR, "tbody th[scope=row]")) == len(rows)
    for drawing in browser.find_elements(By.TAG_NAME, "svg"):
        assert drawing.aria_role in ("img", "image")
        assert len(drawing.accessible_name) > 20
    assert browser.find_element(By.TAG_NAME, "html").get_attribute("lang") == "en"
    ids = re.findall(r'\bid="(.*?)"', browser.page_source)
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@each_example
def test_every_text_can_be_read(name, dark, browser, pages):
    """At least 4.5 to 1 against what is behind it (WCAG 2.1, 1.4.3), in light and in dark."""
    _open(browser, pages[name][0], dark=dark)
    assert browser.execute_script(CONTRAST) == []


def test_dark_is_dark(browser, pages):
    """The page follows the reader's setting."""
    shades = []
    for dark in (False, True):
        _open(browser, pages[NAMES[0]][0], dark=dark)
        shades.append(browser.execute_script("return getComputedStyle(document.documentElement).backgroundColor"))
    light, dark = (sum(map(int, re.findall(r"\d+", shade)[:3])) for shade in shades)
    assert light > 700
    assert dark < 100


def test_it_works_by_keyboard(browser, pages):
    """The first stop skips to the answer; working unfolds with the enter key."""
    _open(browser, pages["orchard_press"][0])
    browser.find_element(By.TAG_NAME, "body").send_keys(Keys.TAB)
    assert browser.switch_to.active_element.text == "Skip to the answer"
    summary = browser.find_element(By.CSS_SELECTOR, "details.working > summary")
    summary.send_keys(Keys.ENTER)
    assert browser.find_element(By.CSS_SELECTOR, "details.working").get_attribute("open") is not None


def test_all_working_opens_and_folds(browser, pages):
    """By one button."""
    _open(browser, pages["orchard_press"][0])
    button, all_of_it = browser.find_element(By.ID, "open-all"), "details.working"
    button.click()
    assert all(d.get_attribute("open") is not None for d in browser.find_elements(By.CSS_SELECTOR, all_of_it))
    assert button.text == "Fold all working"
    button.click()
    assert not any(d.get_attribute("open") for d in browser.find_elements(By.CSS_SELECTOR, all_of_it))


@each_example
@pytest.mark.parametrize(("paper", "wide", "high"), [("A4", 8.27, 11.69), ("Letter", 8.5, 11.0)])
def test_it_prints(name, paper, wide, high, browser, pages):
    """On A4 and Letter, with nothing wider than the paper."""
    _open(browser, pages[name][0])
    sheet = {"paperWidth": wide, "paperHeight": high, "printBackground": True, "preferCSSPageSize": False}
    printed = base64.b64decode(browser.execute_cdp_cmd("Page.printToPDF", sheet)["data"])
    assert printed.startswith(b"%PDF")
    assert printed.count(b"/Type /Page\n") + printed.count(b"/Type/Page\n") >= 2
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    inside = round((wide - 2 * 14 / 25.4) * 96)
    size = {"width": inside, "height": 900, "deviceScaleFactor": 1, "mobile": False}
    browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
    assert browser.execute_script("return document.documentElement.scrollWidth") <= inside
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})


def test_a_press_named_like_a_script_runs_nothing(browser, tmp_path):
    """The name is read as a name."""
    text = EXAMPLES[0].read_text(encoding="utf-8")
    text = re.sub(r'^title = ".*"$', "title = \"<script>document.title = 'taken'</script>\"", text, flags=re.MULTILINE)
    target = tmp_path / "script.html"
    target.write_text(page(text, "press.toml", date="2025-01-31").html, encoding="utf-8")
    _open(browser, target)
    assert browser.find_element(By.TAG_NAME, "h1").text == "<script>document.title = 'taken'</script>"
    assert browser.title != "taken"
