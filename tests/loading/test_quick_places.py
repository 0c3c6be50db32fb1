"""Places found by a file's lines are those in its tree of nodes, or are left to that."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from lessonkit.loading.node_places import place_in
from lessonkit.loading.nodes import compose
from lessonkit.loading.quick_places import quick_place
from lessonkit.loading.quick_reader import read_quickly
from lessonkit.source.location import FieldPath

CURRICULUM = Path(__file__).parents[2] / "curriculum"
FILES = [
    *sorted((CURRICULUM / "activities").rglob("*.yaml"))[::40],
    *sorted((CURRICULUM / "units").glob("*.yaml"))[::9],
]
LAYOUTS = [
    "a: 1\n",
    "# x\na:\n- 1\n- b: 2\n  c: |\n    # t\n\n    u\n  d:\n  - 3\n-   4\ne: 5\n",
    "a:\n  - - 1\n    - 2\n  - [1, {b: 2}]\n  - {b: 2} # x\n  - 'c'\n",
    "a:\n    'b':\n        c:  d\n    e: \"f\"\nzeile: äö\n",
]


def _paths(value: Any, path: FieldPath = ()) -> Iterator[FieldPath]:
    """Give all paths of a value, and beside each some that lead nowhere."""
    yield from (path, (*path, "nowhere"), (*path, 9))
    if isinstance(value, dict | list):
        for step, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _paths(inner, (*path, step))


@pytest.mark.parametrize("text", [*LAYOUTS, *(path.read_text("utf-8") for path in FILES)], ids=str.__len__)
def test_every_place_is_that_of_the_nodes(text: str) -> None:
    """All fields and items are asked for, names and values (source: the nodes' own marks)."""
    data, top = read_quickly(text), compose(text, "f")
    asked = [(path, on_key) for path in _paths(data) for on_key in (False, True)]
    quick = {(path, on_key): quick_place(text, path, "f", on_key) for path, on_key in asked}
    sure = {key: place for key, place in quick.items() if place is not None}

    assert data is not None
    assert {key: place_in(top, key[0], "f", key[1]) for key in sure} == sure


def test_a_field_with_a_line_of_its_own_is_found_by_the_lines() -> None:
    """So the YAML reader need not be loaded for what most findings are about."""
    text = "a: 1\nb:\n  - id: x\n    c: y\n  - z\n"

    assert "f:4:8" == str(quick_place(text, ("b", 0, "c"), "f", on_key=False))
    assert "f:5:5" == str(quick_place(text, ("b", 1), "f", on_key=False))
