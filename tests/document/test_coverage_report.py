"""The coverage report names the unit of every lesson, says first what is missing, and can stop at a day."""

import re
from dataclasses import replace
from datetime import date
from functools import cache

import msgspec

from lessonkit.document.coverage_report import coverage_report
from lessonkit.document.lesson_facts import PlanFacts, work_out
from lessonkit.document.model import Block, Cell, Document, Paragraph, Table, plain
from lessonkit.logistics.words import in_runs
from tests.document.printed import library

PLANS = ("paddles-grade-3-grade-3-heron", "feet-grade-3-grade-3-heron")


@cache
def facts() -> tuple[PlanFacts, ...]:
    """Return two units of one class, worked out."""
    return tuple(work_out(library().plans[name], library()) for name in PLANS)


def report(*plans: PlanFacts, until: date | None = None) -> Document:
    """Return the report of grade 3 with plans."""
    framework = library().frameworks["us-pe-2013"]
    return coverage_report(
        framework, "3", library(), plans, date="2026-11-26", author="Quillfeather", paper="letter", until=until
    )


def _words(cell: Cell) -> list[str]:
    return [plain(block.content) for block in cell.blocks if isinstance(block, Paragraph)]


def _lessons(document: Document) -> dict[tuple[str, str], list[str]]:
    """Return what stands in the tables of lessons, one a standard, by outcome code and unit."""
    tables = [table for table in _tables(document.blocks) if "lessons of every unit" in table.title]
    units = [" ".join(_words(cell)) for cell in tables[0].rows[0]][1:]
    return {
        (_words(row[0])[0], unit): _words(cell)
        for table in tables
        for row in table.rows[1:]
        for unit, cell in zip(units, row[2:], strict=True)
    }


def _tables(blocks: tuple[Block, ...]) -> list[Table]:
    return [block for block in blocks if isinstance(block, Table)]


def _numbers(words: list[str]) -> set[int]:
    """Return the lessons that a cell names, read back from its words."""
    found: set[int] = set()
    for first, last in re.findall(r"(\d+)(?:\u2013(\d+))?", " ".join(words)):
        found |= set(range(int(first), int(last or first) + 1))
    return found


def test_every_lesson_stands_below_its_unit() -> None:
    """What the table says, read back, is the set of lessons of each plan that serve the outcome."""
    said = _lessons(report(*facts()))
    by_unit = {unit: {code: _numbers(words) for (code, its), words in said.items() if its == unit} for _, unit in said}
    served = [
        {
            code: {
                lesson.lesson.lesson for lesson in plan.lessons if code in {target.code for target in lesson.targets}
            }
            for code in next(iter(by_unit.values()))
        }
        for plan in sorted(facts(), key=lambda plan: plan.lessons[0].lesson.date)
    ]

    assert ["Short-handled paddles (8\u00a0lessons)", "Jog, Pass and Trap (9\u00a0lessons)"] == list(by_unit)
    assert served == list(by_unit.values())


def test_lessons_after_the_day_do_not_count() -> None:
    """Up to the day of the second lesson no cell names a later one, and what only later lessons serve is missing."""
    paddles = facts()[0]
    day = date.fromisoformat(paddles.lessons[1].lesson.date)
    so_far, whole = report(paddles, until=day), report(paddles)

    assert {1, 2} == set().union(*(_numbers(words) for words in _lessons(so_far).values()))
    assert len(_lessons(so_far)) < len(_lessons(whole))
    assert "lessons up to" in str(so_far.blocks[1])


def test_without_lessons_the_activities_are_listed() -> None:
    """Without a plan, and with plans whose lessons come later, activities stand beside every outcome."""
    none = report()

    assert ["Outcome", "What it asks for", "Activities in the library"] == [
        words for cell in _tables(none.blocks)[-1].rows[0] for words in _words(cell)
    ]
    assert none.blocks[2:] == report(*facts(), until=date(2000, 1, 1)).blocks[2:]


def test_a_combined_class_counts_in_each_of_its_grades() -> None:
    """A class of grades 2 and 3 stands in the reports of both."""
    paddles = facts()[0]
    combined = msgspec.structs.replace(paddles.school_class, grade="2", also_grades=("3",))
    document = report(replace(paddles, school_class=combined))

    assert combined.title in str(document.blocks)


def test_runs_of_lessons_are_drawn_together() -> None:
    """Three neighbours or more make a run; two stay two (common practice in indexes, no source)."""
    assert "1\u20133, 5, 6, 8" == in_runs([1, 2, 3, 5, 6, 8])
    assert "" == in_runs([])
