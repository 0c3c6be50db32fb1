"""What the quick gate lets through has no fault for the engines either, and it lets through what is in good shape."""

import json
from pathlib import Path

import pytest

from lessonkit.loading.engines import fast_engine
from lessonkit.loading.folder import load_folder
from lessonkit.loading.quick_gate import is_surely_in_shape
from lessonkit.loading.quick_reader import read_quickly
from lessonkit.loading.shape import schema_of
from lessonkit.records.library import KINDS
from tests.loading.cases import data
from tests.loading.mutants import mutants
from tests.loading.test_engines import FILES

CURRICULUM = Path(__file__).resolve().parents[2] / "curriculum"


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_yes_is_a_yes_of_the_engine(kind: str) -> None:
    """Over all damaged records nothing goes through in which the engine finds a fault; the whole record does."""
    schema, check = schema_of(kind), fast_engine(schema_of(kind))
    every = 3 if kind == "activity" else 1
    let_through = [mutant for mutant in mutants(data(kind), every) if is_surely_in_shape(schema, mutant)]

    assert is_surely_in_shape(schema, data(kind))
    assert [] == [mutant for mutant in let_through if check(mutant)]


@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_a_yes_is_right_by_the_suite(file: Path) -> None:
    """Whatever the JSON Schema Test Suite calls wrong for a keyword of the record schemas is not let through."""
    groups = json.loads(file.read_text("utf-8"))
    wrong = [
        test["description"]
        for group in groups
        for test in group["tests"]
        if isinstance(group["schema"], dict) and not test["valid"]
        if is_surely_in_shape(group["schema"], test["data"])
    ]

    assert [] == wrong


def test_what_comes_with_the_program_goes_through() -> None:
    """A record in the usual layout without a fault needs no engine; so it is for all that come with the program."""
    for path in sorted(CURRICULUM.rglob("activities/*/*.yaml"))[::9]:
        values = read_quickly(path.read_text("utf-8"))

        assert values is None or is_surely_in_shape(schema_of("activity"), values)
    assert load_folder(path, "x").records
