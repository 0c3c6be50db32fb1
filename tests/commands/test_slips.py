"""Slips that teachers make by hand are each said at their place, in the words that were read aloud beforehand."""

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

import pytest

from lessonkit.commands.checking import findings_of
from lessonkit.loading.folder import load_folder
from lessonkit.loading.nodes import compose
from lessonkit.loading.values import Reader
from lessonkit.source.finding import Level

SLIPS: Final = Path(__file__).parents[1] / "cases" / "slips"
MOST: Final = 3
"""Findings that one slip may give."""
SAVED: Final[dict[str, Callable[[str], bytes]]] = {
    "utf-16": lambda text: text.encode("utf-16"),
    "utf-8-sig": lambda text: text.encode("utf-8-sig"),
    "windows-1252": lambda text: text.encode("windows-1252"),
    "crlf": lambda text: text.replace("\n", "\r\n").encode(),
    "cr": lambda text: text.replace("\n", "\r").encode(),
}
"""Ways to save a file."""


def every_slip() -> list[dict[str, Any]]:
    """Read the table of slips."""
    path = SLIPS / "slips.yaml"
    value = Reader(path.name).value(compose(path.read_text("utf-8"), path.name))
    assert isinstance(value, list)
    return value


def _make(slip: dict[str, Any], folder: Path) -> None:
    """Make a slip in a copy of the records."""
    shutil.copytree(SLIPS / "curriculum", folder)
    file = folder / slip["in"]
    text = file.read_text("utf-8")
    assert slip.get("was", "") in text
    text = text.replace(slip.get("was", ""), slip.get("now", ""), 1)
    kept = slip.get("kept")
    if kept == "cut":
        lines = text.split("\n")[: slip["after"]]
        text = "".join(f"{line}\n" for line in lines)
    file.write_bytes(SAVED.get(kept or "", str.encode)(text))
    if kept == "copied":
        shutil.copy(file, folder / slip["as"])
    elif kept == "renamed":
        file.rename(folder / slip["as"])
    elif kept == "folder":
        (folder / slip["as"]).mkdir()
        file.rename(folder / slip["as"] / file.name)


@pytest.mark.parametrize("slip", every_slip(), ids=lambda slip: slip["slip"])
def test_a_slip_is_said_in_its_words(slip: dict[str, Any], tmp_path: Path) -> None:
    """The findings are those of the table, at most three, and something stands in the way of a check that passes."""
    folder = tmp_path / "school"
    _make(slip, folder)
    found = findings_of(load_folder(folder, folder.as_posix()))
    inside = f"{folder.as_posix()}/"
    told = [
        {"at": f"{one.location.path.removeprefix(inside)}:{one.location.line}", "code": one.code.name}
        | {"says": one.says.replace(inside, "")}
        | ({"hint": one.hint} if one.hint else {})
        for one in found
    ]

    assert slip["finds"] == told
    assert len(found) <= MOST
    assert not found or any(one.level is not Level.ADVICE for one in found)


def test_the_records_have_no_fault_before_the_slips() -> None:
    """Nothing is found in the records that the slips are made in."""
    folder = SLIPS / "curriculum"

    assert () == findings_of(load_folder(folder, folder.as_posix()))
