"""Every kind of web page as axe-core in a real browser and the Nu HTML checker find it: nothing to mend."""

import base64
import json
import re
import subprocess
from pathlib import Path

import pytest

from lessonkit.writers.html import write
from tests.browser import Browser, browser
from tests.every_document import KINDS, documents
from tests.node_readers import AXE, VNU, without_axe, without_vnu

RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
"""What axe-core calls the levels A and AA of WCAG 2.0 to 2.2, and what it advises beyond them."""
SHEETS = ("lesson", "circuit-lesson", "substitute", "letter", "rotation")
"""Pages that are handed out or hung up: one sheet of paper, or one side of it."""
FAULTY = (
    b"<!DOCTYPE html><html lang='en'><title>A</title><body><main><h1>A</h1><img src='a.png'><h3>B</h3></main></html>"
)
"""A page with a picture that says nothing (WCAG 1.1.1) and a level of headings left out."""


def _pages(folder: Path) -> list[Path]:
    """Write every kind of document as a web page, and the faulty one."""
    made = {f"{kind}-{number}": write(page) for kind in KINDS for number, page in enumerate(documents(kind), start=1)}
    for name, content in {**made, "faulty": FAULTY}.items():
        (folder / f"{name}.html").write_bytes(content)
    return sorted(folder.glob("*.html"))


def _axe(page: Browser, rules: str) -> list[str]:
    """Let axe-core check the page that is shown; return its findings, and what it could not decide but contrast.

    It cannot tell what lies behind the letters of a drawing: tests/writers/test_svg.py works their contrast out.
    """
    page.run(AXE.read_text("utf-8"))
    found = page.run(
        f"axe.run({{runOnly: {rules}, resultTypes: ['violations', 'incomplete']}}).then(done => "
        "[...done.violations, ...done.incomplete.filter(one => one.id != 'color-contrast')]"
        ".map(one => one.id + ': ' + one.nodes[0].html.slice(0, 120)))"
    )
    return [str(one) for one in found]


def _seen(page: Browser, path: Path) -> list[str]:
    """Return what is to be mended in a page on a screen, on a telephone held upright, and in print."""
    page.ask("Emulation.setEmulatedMedia", media="screen")
    page.ask("Emulation.setDeviceMetricsOverride", width=1280, height=900, deviceScaleFactor=1, mobile=False)
    page.show(path)
    found = _axe(page, json.dumps({"type": "tag", "values": RULES}))
    page.ask("Emulation.setDeviceMetricsOverride", width=320, height=640, deviceScaleFactor=1, mobile=False)
    found += _axe(page, "['target-size', 'scrollable-region-focusable']")
    if page.run("document.documentElement.scrollWidth > innerWidth"):
        found.append("wider than 320 pixels")
    page.ask("Emulation.setEmulatedMedia", media="print")
    return found + _axe(page, "['color-contrast', 'empty-table-header', 'heading-order', 'region']")


@pytest.mark.needs_chromium
@pytest.mark.needs_node
@without_axe
def test_axe_finds_nothing_in_a_browser(tmp_path: Path) -> None:
    """No finding at WCAG 2.2 AA; nothing is scrolled sideways at 320 pixels (WCAG 1.4.10), tables apart."""
    paths = _pages(tmp_path)
    with browser(tmp_path / "profile") as page:
        found = {path.stem: _seen(page, path) for path in paths}
    faulty = {one.partition(":")[0] for one in found.pop("faulty")}

    assert {"image-alt", "heading-order"} <= faulty
    assert {} == {name: says for name, says in found.items() if says}


def _printed(page: Browser, path: Path) -> int:
    """Return the number of pages on which the browser prints a file."""
    page.show(path)
    made = base64.b64decode(page.ask("Page.printToPDF", preferCSSPageSize=True)["data"])
    return len(re.findall(rb"/Type\s*/Page\b", made))


@pytest.mark.needs_chromium
def test_a_web_page_prints_on_as_many_pages_as_the_word_page(tmp_path: Path) -> None:
    """A lesson on the two sides of a sheet; a substitute's sheet, a letter and a rotation sheet on one."""
    made = {f"{kind}-{number}": page for kind in SHEETS for number, page in enumerate(documents(kind), start=1)}
    for name, document in made.items():
        (tmp_path / f"{name}.html").write_bytes(write(document))
    with browser(tmp_path / "profile") as page:
        printed = {name: _printed(page, tmp_path / f"{name}.html") for name in made}

    assert {name: document.pages for name, document in made.items()} == printed


@pytest.mark.needs_java
@pytest.mark.needs_node
@without_vnu
def test_the_nu_checker_finds_nothing(tmp_path: Path) -> None:
    """The checker of the HTML standard has no error, no warning and no advice but for the faulty page."""
    paths = _pages(tmp_path)
    command = ["java", "-jar", str(VNU), "--format", "json", "--exit-zero-always", *map(str, paths)]
    said = subprocess.run(command, capture_output=True, text=True, timeout=240, check=True).stderr
    found = [(Path(one["url"]).stem, one["message"]) for one in json.loads(said)["messages"]]

    assert any(name == "faulty" and "alt" in message for name, message in found)
    assert [] == [one for one in found if one[0] != "faulty"]
