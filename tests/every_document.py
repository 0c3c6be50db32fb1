"""Documents of every kind that the commands write, for the tests of what other programs make of them.

A new kind of sheet is taken in as soon as ``export --sheets`` knows it; ``tests/writers/word/test_every_kind.py``
watches that no command writes pages which are missing here.
"""

import io
from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from unittest.mock import patch

import msgspec

from lessonkit.cli import build_parser
from lessonkit.commands.sheets import SHEETS, sheet_documents
from lessonkit.commands.terminal import Terminal
from lessonkit.document.binder import binder_document
from lessonkit.document.coverage_report import coverage_report
from lessonkit.document.lesson_facts import PlanFacts, work_out
from lessonkit.document.lesson_plan import lesson_document
from lessonkit.document.model import Document
from lessonkit.document.year_overview import year_documents
from lessonkit.writers.table import FORMATS
from lessonkit.writers.word.writer import numbered, safe_pages
from tests import by_hand
from tests.document.printed import fixed_plan, library, worked_out
from tests.document.test_circuits_and_settings import with_circuit
from tests.writers import sample_lesson

HANDOUTS = {
    "groups": ("groups", "25", "--of", "3", "--word"),
    "partners": ("partners", "11", "--rounds", "3", "--word"),
    "games": ("games", "--children", "24", "--side", "3", "--squad", "6", "--word"),
    "challenge-courts": ("games", "--teams", "9", "--courts", "3", "--challenge", "two-out", "--word"),
    "stations": ("rotation", "--squads", "7", "--stations", "6", "--word"),
    "floor": ("fit", "12", "6 m by 2 m", "--room", "22 m by 14 m", "--apart", "1 m", "--draw"),
}
"""Words of the command line that ask for a page to print; the name of its file comes last."""
PLANNED = ("lesson", "binder", *SHEETS, "circuit-lesson", "year", "coverage-year")
"""What ``export`` and ``year`` write."""
KINDS = (*PLANNED, *HANDOUTS, "every-block")
"""All of it, and a page that holds each kind of block there is."""
_FIRST_GRADE = ("balance-and-roll-grade-1-grade-1-robin", "feet-grade-1-grade-1-robin")


@cache
def documents(kind: str, paper: str = "letter") -> tuple[Document, ...]:
    """Return one document of a kind or two, their pages counted."""
    return tuple(map(numbered, _documents(kind, paper)))


def _documents(kind: str, paper: str) -> Iterable[Document]:
    if kind in SHEETS:
        facts = _circuit(paper) if kind == "rotation" else _facts(paper)
        return [document for _, document in list(sheet_documents(kind, facts))[:2]]
    if kind in HANDOUTS:
        return [replace(_handout(*HANDOUTS[kind]), paper=paper)]
    return _BUILDERS[kind](paper)


@cache
def _facts(paper: str) -> PlanFacts:
    plan = fixed_plan()
    return worked_out(plan, plan.school_class, 25, paper)


@cache
def _circuit(paper: str) -> PlanFacts:
    school = msgspec.structs.replace(by_hand.library().schools["quillfeather"], paper=paper)
    return work_out(with_circuit(), replace(by_hand.library(), schools={school.id: school}))


def _year(paper: str) -> list[Document]:
    """Return the overview of the school and of one grade."""
    (found,) = library().year_maps.values()
    made = [document for _, document in year_documents(found, library(), safe_pages)]
    return [replace(document, paper=paper) for document in (made[0], made[-1])]


def _coverage(paper: str) -> Document:
    """Return the report of a grade with two units planned."""
    facts = [work_out(library().plans[name], library()) for name in _FIRST_GRADE]
    school = facts[0].school
    day = school.calendar.first_day
    grade = facts[0].school_class.grade
    return coverage_report(facts[0].framework, grade, library(), facts, date=day, author=school.title, paper=paper)


_BUILDERS: dict[str, Callable[[str], Iterable[Document]]] = {
    "lesson": lambda paper: [lesson_document(_facts(paper), number, safe_pages) for number in (1, 2)],
    "binder": lambda paper: [binder_document(_facts(paper), safe_pages)],
    "circuit-lesson": lambda paper: [lesson_document(_circuit(paper), 5, safe_pages)],
    "year": _year,
    "coverage-year": lambda paper: [_coverage(paper)],
    "every-block": lambda paper: [sample_lesson.binder_document(paper)],
}


def _handout(*words: str) -> Document:
    """Return the page that a command prints, caught where it would become a Word file."""
    caught: list[Document] = []

    def catch(document: Document, _: Any) -> bytes:
        caught.append(document)
        return b""

    out = io.StringIO()
    with TemporaryDirectory() as folder, patch.dict(FORMATS, word=replace(FORMATS["word"], write=catch)):
        args = build_parser().parse_args([*words, str(Path(folder) / "page.docx")])
        args.module.run(args, Terminal(out, out, {}))
    (document,) = caught
    return document
