"""The same request gives the same plan, however often it is asked for."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from lessonkit.planning import search
from lessonkit.planning.build import build
from lessonkit.planning.sequence import Options, Planned, sequence
from lessonkit.planning.write_plan import plan_text

from .school_records import library
from .synthetic import unit_problem


def test_ten_runs_write_the_same_file() -> None:
    """Ten plans of the small school are the same, byte for byte."""
    texts = set()
    for _ in range(10):
        found = sequence(library(), "taps", "heron", Options())
        assert isinstance(found, Planned)
        texts.add(plan_text(found.plan, library()))

    assert 1 == len(texts)


def cut_short() -> str:
    """Return what a short search in pieces finds."""
    search._CORE_EFFORT = 0.2
    answer = search.Search(build(unit_problem(5, lessons=6, eligible=60)), effort=0.5).run()
    return f"{answer.status} {answer.values} {answer.cost} {answer.bound}"


def test_a_search_cut_short_ends_at_the_same_place(monkeypatch: pytest.MonkeyPatch) -> None:
    """A search in pieces that its effort ends before the proof finds the same values and bound every time.

    Neither the hash seed nor the process makes a difference, nor how busy the machine is.
    """
    monkeypatch.setattr(search, "_CORE_EFFORT", search._CORE_EFFORT)  # it is put back afterwards
    root = Path(__file__).parents[2]
    other = subprocess.run(
        [sys.executable, "-c", "from tests.planning.test_same_plan import cut_short; print(cut_short())"],
        cwd=root,
        env={**os.environ, "PYTHONHASHSEED": "77", "PYTHONPATH": str(root)},
        capture_output=True,
        check=True,
        text=True,
    ).stdout
    this = cut_short()

    assert this.startswith("best-found ")
    assert f"{this}\n" == other
