"""The coverage report of a grade: which activities and planned lessons serve each outcome, what is missing first."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import Block, Cell, Document, Heading, KeyValues, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, cell, sentence, words_cell
from lessonkit.logistics.words import joined
from lessonkit.outcomes.coverage import Coverage, Served, coverage
from lessonkit.records.activity import How
from lessonkit.records.framework import Framework
from lessonkit.records.library import Library

WAYS: tuple[How, ...] = ("introduced", "practised", "assessed")
_WAY_WORDS: dict[How, str] = {"introduced": "Introduced", "practised": "Practised", "assessed": "Checked"}
_MOST_TITLES = 6
"""Titles of activities in one cell; of more the number is said."""


@dataclass(frozen=True, slots=True)
class Planned:
    """The lessons of one plan that serve an outcome in one way: the class, and the lessons' numbers."""

    school_class: str
    lessons: tuple[int, ...]

    def __str__(self) -> str:
        word = "lesson" if len(self.lessons) == 1 else "lessons"
        return f"{self.school_class}: {word} {joined(self.lessons)}"


def coverage_report(
    framework: Framework,
    grade: str,
    library: Library,
    plans: Sequence[PlanFacts],
    *,
    date: str,
    author: str,
    paper: str,
) -> Document:
    """Return the report of a grade (K to 5). Only ``plans`` of that grade and framework count; ``date`` is ISO."""
    found = coverage(framework, grade, library.activities.values())
    plans = [plan for plan in plans if plan.school_class.grade == grade and plan.framework.id == framework.id]
    sections = _sections(found, plans)
    title = f"Outcomes of grade {grade}: what is covered"
    return Document(
        title=title,
        subject=framework.title,
        author=author,
        footer=f"{framework.title} {EN_DASH} grade {grade}",
        date=date,
        blocks=(
            Heading(1, text(title)),
            sentence(
                f"Every active outcome of the grade in {framework.title}, what is missing first. The words beside the "
                "codes are ours; the published wording is the publisher's.",
                Role.SUMMARY,
            ),
            _counts(found, plans),
            *(
                block
                for heading, says, rows in sections
                if rows
                for block in (
                    Heading(2, text(f"{heading} ({len(rows)})")),
                    sentence(says),
                    _table(heading, rows, library, plans),
                )
            ),
        ),
        paper=paper,
        landscape=True,
    )


def planned_lessons(plans: Iterable[PlanFacts], code: str, way: How) -> tuple[Planned, ...]:
    """Return the lessons of plans that serve an outcome in a way, plan by plan."""
    found = []
    for plan in plans:
        numbers = tuple(
            lesson.lesson.lesson
            for lesson in plan.lessons
            for target in lesson.targets
            if target.code == code and way in target.ways
        )
        if numbers:
            found.append(Planned(plan.school_class.title, numbers))
    return tuple(found)


def _sections(found: Coverage, plans: Sequence[PlanFacts]) -> tuple[tuple[str, str, tuple[Served, ...]], ...]:
    """Sort the outcomes by what they lack, the largest lack first; each stands in one section."""
    unserved = [row for row in found.rows if row.gap == "not-served"]
    served = [row for row in found.rows if row.gap != "not-served"]
    unplanned = [row for row in served if not _is_planned(row, plans)]
    planned = [row for row in served if _is_planned(row, plans)]
    unchecked = [row for row in planned if not planned_lessons(plans, row.outcome.code, "assessed")]
    complete = [row for row in planned if planned_lessons(plans, row.outcome.code, "assessed")]
    return (
        ("No activity yet", "No activity for the grade serves these outcomes.", tuple(unserved)),
        ("Activities, but no planned lesson", "Activities serve these; no plan uses them so far.", tuple(unplanned)),
        ("Planned, but not checked", "Lessons serve these; none checks them so far.", tuple(unchecked)),
        ("Planned and checked", "Lessons practise and check these.", tuple(complete)),
    )


def _is_planned(row: Served, plans: Sequence[PlanFacts]) -> bool:
    return any(planned_lessons(plans, row.outcome.code, way) for way in WAYS)


def _counts(found: Coverage, plans: Sequence[PlanFacts]) -> KeyValues:
    total = len(found.rows)
    codes = [row.outcome.code for row in found.rows]
    practised = sum(bool(planned_lessons(plans, code, "practised")) for code in codes)
    checked = sum(bool(planned_lessons(plans, code, "assessed")) for code in codes)
    pairs = (
        ("Active outcomes", str(total)),
        ("With an activity", f"{total - len(found.gaps('not-served'))} of {total}"),
        ("Practised in lessons", f"{practised} of {total}"),
        ("Checked in lessons", f"{checked} of {total}"),
        ("Plans of the grade", str(len(plans))),
    )
    return KeyValues(tuple((name, text(value)) for name, value in pairs))


def _table(title: str, rows: tuple[Served, ...], library: Library, plans: Sequence[PlanFacts]) -> Table:
    served = any(getattr(row, way) for row in rows for way in WAYS)
    names = [_WAY_WORDS[way] for way in WAYS] if served else []
    header = tuple(words_cell(words) for words in ("Outcome", "What it asks for", *names))
    body = tuple(
        (
            cell(Paragraph(text(row.outcome.code)), Paragraph(text(row.outcome.topic), Role.SMALL)),
            cell(Paragraph(text(row.outcome.says or row.outcome.topic))),
            *(_served(row, way, library, plans) for way in (WAYS if served else ())),
        )
        for row in rows
    )
    return Table((header, *body), (16, 27, 19, 19, 19) if served else (16, 84), title, row_header=True)


def _served(row: Served, way: How, library: Library, plans: Sequence[PlanFacts]) -> Cell:
    """Name the lessons, and below them the activities in small letters."""
    titles = sorted(library.activities[name].title for name in getattr(row, way))
    lessons = planned_lessons(plans, row.outcome.code, way)
    blocks: list[Block] = [Paragraph(text(str(planned))) for planned in lessons]
    if len(titles) > _MOST_TITLES:
        titles = [*titles[: _MOST_TITLES - 1], f"{len(titles) - _MOST_TITLES + 1} more"]
    if titles:
        blocks.append(Paragraph(text(", ".join(titles)), Role.SMALL))
    return cell(*blocks)
