"""Where the readers are that tests/package.json lists, and the marks of tests that cannot run without them."""

import shutil
from pathlib import Path

import pytest

from tests.browser import CHROMIUM

_MODULES = Path(__file__).parent / "node_modules"
AXE = _MODULES / "axe-core" / "axe.min.js"
VNU = _MODULES / "vnu-jar" / "build" / "dist" / "vnu.jar"
ICAL = _MODULES / "ical.js" / "dist" / "ical.js"
_HOW = "npm install --prefix tests --no-package-lock"

without_axe = pytest.mark.skipif(
    CHROMIUM is None or not AXE.exists(), reason=f"Chromium or axe-core is not installed ({_HOW})"
)
without_vnu = pytest.mark.skipif(
    shutil.which("java") is None or not VNU.exists(), reason=f"Java or vnu-jar is not installed ({_HOW})"
)
without_ical = pytest.mark.skipif(
    shutil.which("node") is None or not ICAL.exists(), reason=f"Node or ical.js is not installed ({_HOW})"
)
