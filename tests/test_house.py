"""The house keeps its floors: imports only go down, and heavy libraries have one door each."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "lessonkit"
FLOORS = {
    "source": 0,
    "records": 1,
    "outcomes": 1,
    "loading": 2,
    "logistics": 3,
    "rules": 4,
    "planning": 4,
    "choosing": 4,
    "document": 5,
    "writers": 6,
    "reports": 6,
    "commands": 7,
    "cli": 7,
    "__main__": 7,
}
SEEN_BY_NEIGHBOUR = {("outcomes", "records"), ("cli", "commands"), ("__main__", "cli")}
DOORS = {
    "yaml": {"loading/nodes.py", "loading/plain_parser.py"},
    "jsonschema": {"loading/engines.py"},
    "jsonschema_rs": {"loading/engines.py"},
    "ortools": {"planning/solve.py", "logistics/packing.py"},
    "markdown_it": {"document/markdown.py"},
    "holidays": {"planning/dates.py"},
}
MODULES = sorted(PACKAGE.rglob("*.py"))


def _imports(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


def _floor_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_imports_only_go_down(path: Path) -> None:
    """A module imports from its own folder or from a lower floor."""
    here = _floor_of(path)
    if here == "__init__":
        pytest.fail("the package itself imports") if any(_imports(path)) else None
        return
    wrong = []
    for name in _imports(path):
        parts = name.split(".")
        if parts[0] != "lessonkit" or len(parts) == 1 or parts[1] == here:
            continue
        allowed = FLOORS[parts[1]] < FLOORS[here] or (here, parts[1]) in SEEN_BY_NEIGHBOUR
        wrong += [] if allowed else [name]

    assert [] == wrong


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_heavy_libraries_have_one_door(path: Path) -> None:
    """A heavy library is imported in the module that is its door, nowhere else."""
    place = path.relative_to(PACKAGE).as_posix()
    wrong = [name for name in _imports(path) if place not in DOORS.get(name.split(".")[0], {place})]

    assert [] == wrong


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_files_and_functions_stay_small(path: Path) -> None:
    """A file has at most 400 lines, a function at most 50."""
    text = path.read_text("utf-8")
    long = [
        node.name
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.FunctionDef) and (node.end_lineno or 0) - node.lineno >= 50
    ]

    assert len(text.splitlines()) <= 400
    assert [] == long
