"""The shipped curriculum with a plan whose numbers were worked out by hand, whatever plan ships with it."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from lessonkit.loading.folder import load_folder
from lessonkit.records.library import Library

TESTS = Path(__file__).parent


@cache
def library() -> Library:
    """Return the curriculum with that plan alone."""
    shipped = load_folder(TESTS.parent / "curriculum", "curriculum").library
    return replace(shipped, plans=load_folder(TESTS / "cases" / "by-hand", "by-hand").library.plans)
