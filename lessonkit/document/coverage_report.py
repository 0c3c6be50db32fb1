"""The coverage report of a grade: what no lesson serves or checks yet, then which unit serves which outcome when."""

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import Block, Cell, Document, Heading, KeyValues, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, NO_BREAK, cell, labelled, sentence, words_cell
from lessonkit.document.unit_coverage import lessons_of
from lessonkit.logistics.words import in_runs
from lessonkit.outcomes.coverage import Served, coverage
from lessonkit.records.activity import How
from lessonkit.records.framework import Framework
from lessonkit.records.library import Library

WAYS: tuple[How, ...] = ("introduced", "practised", "assessed")
_VERBS: dict[How, str] = {"introduced": "Introduce it:", "practised": "Practice it:", "assessed": "Check it:"}
_MOST_TITLES = 6
"""Titles of activities in one cell; of more the number is said."""
_MOST_UNITS = 8
"""Units side by side in one table; a class with more takes another."""


@dataclass(frozen=True, slots=True)
class ClassCoverage:
    """What the plans of one class do: for each outcome code the lessons of every plan, and those that check it."""

    title: str
    plans: tuple[PlanFacts, ...]
    serving: Mapping[str, tuple[tuple[int, ...], ...]]
    checking: Mapping[str, tuple[tuple[int, ...], ...]]

    def is_planned(self, code: str) -> bool:
        """Whether a lesson serves the outcome."""
        return any(self.serving[code])

    def is_checked(self, code: str) -> bool:
        """Whether a lesson checks the outcome."""
        return any(self.checking[code])


def coverage_report(
    framework: Framework,
    grade: str,
    library: Library,
    plans: Sequence[PlanFacts],
    *,
    date: str,
    author: str,
    paper: str,
    until: datetime.date | None = None,
) -> Document:
    """Return the report of a grade (K to 5), each class by itself. ``date`` is ISO.

    Only ``plans`` of that framework and of classes with that grade count, with their lessons up to ``until`` if given.
    """
    rows = coverage(framework, grade, library.activities.values()).rows
    classes = _by_class(rows, [_until(plan, until) for plan in plans if _is_meant(plan, framework, grade)])
    title = f"Outcomes of grade {grade}: what is covered"
    return Document(
        title=title,
        subject=framework.title,
        author=author,
        footer=f"{framework.title} {EN_DASH} grade {grade}",
        date=date,
        blocks=(
            Heading(1, text(title)),
            sentence(_summary(framework, until), Role.SUMMARY),
            *_without_activity(rows),
            *(block for each in classes for block in _class_blocks(each, rows, library)),
            *(() if classes else _without_plans(rows, library)),
        ),
        paper=paper,
        landscape=True,
    )


def _is_meant(plan: PlanFacts, framework: Framework, grade: str) -> bool:
    return grade in plan.school_class.grades and plan.framework.id == framework.id


def _until(plan: PlanFacts, until: datetime.date | None) -> PlanFacts:
    """Leave out the lessons after a day."""
    if until is None:
        return plan
    return replace(plan, lessons=tuple(each for each in plan.lessons if each.lesson.date <= until.isoformat()))


def _by_class(rows: Sequence[Served], plans: Sequence[PlanFacts]) -> tuple[ClassCoverage, ...]:
    """Sort plans by class, and a class's by their first days; a plan without a lesson is left out."""
    codes = [row.outcome.code for row in rows]
    found: dict[str, list[PlanFacts]] = {}
    for plan in sorted((plan for plan in plans if plan.lessons), key=lambda plan: plan.lessons[0].lesson.date):
        found.setdefault(plan.school_class.title, []).append(plan)
    return tuple(
        ClassCoverage(
            title,
            tuple(mine),
            {code: tuple(_serving(plan, code) for plan in mine) for code in codes},
            {code: tuple(lessons_of(plan, code, "assessed") for plan in mine) for code in codes},
        )
        for title, mine in sorted(found.items())
    )


def _serving(plan: PlanFacts, code: str) -> tuple[int, ...]:
    return tuple(sorted({number for way in WAYS for number in lessons_of(plan, code, way)}))


def _summary(framework: Framework, until: datetime.date | None) -> str:
    counts = f", in lessons up to {day_in_words(until.isoformat())}" if until else ""
    return (
        f"Every active outcome of the grade in {framework.title}{counts}. "
        "The words beside the codes are ours; the published wording is the publisher's."
    )


def _without_activity(rows: Sequence[Served]) -> tuple[Block, ...]:
    """List the outcomes that no activity of the library serves."""
    lacking = [row for row in rows if row.gap == "not-served"]
    if not lacking:
        return ()
    header = (words_cell("Outcome"), words_cell("What it asks for"))
    body = tuple((words_cell(row.outcome.code), words_cell(_asks(row))) for row in lacking)
    title = f"No activity yet ({len(lacking)})"
    return (
        Heading(2, text(title)),
        sentence("No activity for the grade serves these outcomes."),
        Table((header, *body), (12, 88), title, row_header=True, large=True),
    )


def _without_plans(rows: Sequence[Served], library: Library) -> tuple[Block, ...]:
    """List the activities for every outcome that has some, where no class has a lesson yet."""
    served = [(row, WAYS) for row in rows if row.gap != "not-served"]
    if not served:
        return ()
    return (
        Heading(2, text(f"Activities, but no planned lesson ({len(served)})")),
        _activities("Activities for each outcome", served, library),
    )


def _class_blocks(found: ClassCoverage, rows: Sequence[Served], library: Library) -> Iterator[Block]:
    """Yield what one class has: numbers, what is missing, and the lessons of every unit."""
    with_activity = [row for row in rows if row.gap != "not-served"]
    codes = [row.outcome.code for row in rows]
    unplanned = [(row, WAYS) for row in with_activity if not found.is_planned(row.outcome.code)]
    unchecked: list[tuple[Served, tuple[How, ...]]] = [
        (row, ("assessed",))
        for row in with_activity
        if found.is_planned(row.outcome.code) and not found.is_checked(row.outcome.code)
    ]
    yield Heading(2, text(found.title))
    yield KeyValues(
        tuple(
            (name, text(value))
            for name, value in (
                ("Active outcomes", str(len(rows))),
                ("With an activity", f"{len(with_activity)} of {len(rows)}"),
                ("In lessons", f"{sum(map(found.is_planned, codes))} of {len(rows)}"),
                ("Checked in lessons", f"{sum(map(found.is_checked, codes))} of {len(rows)}"),
                ("Units and lessons", f"{len(found.plans)} and {sum(len(plan.lessons) for plan in found.plans)}"),
            )
        )
    )
    yield from _missing("Activities, but no planned lesson", "No lesson serves these yet.", unplanned, library)
    yield from _missing("In lessons, but not checked", "Lessons serve these; none checks them yet.", unchecked, library)
    yield Heading(3, text("Lessons of every unit, and below them those that check the outcome"))
    for standard, group in groupby(rows, key=lambda row: row.outcome.standard):
        planned = [row for row in group if found.is_planned(row.outcome.code)]
        if planned:
            framework = found.plans[0].framework
            yield Heading(4, text(f"{standard}: {framework.standards.get(standard, '')}"))
            for start in range(0, len(found.plans), _MOST_UNITS):
                yield _lessons(found, range(start, min(start + _MOST_UNITS, len(found.plans))), planned)


def _missing(
    heading: str, says: str, rows: Sequence[tuple[Served, tuple[How, ...]]], library: Library
) -> Iterator[Block]:
    if rows:
        yield Heading(3, text(f"{heading} ({len(rows)})"))
        yield sentence(says)
        yield _activities(heading, rows, library)


def _activities(title: str, rows: Sequence[tuple[Served, tuple[How, ...]]], library: Library) -> Table:
    """Return a table of outcomes with the activities that could serve them in the ways beside them."""
    header = tuple(words_cell(words) for words in ("Outcome", "What it asks for", "Activities in the library"))
    body = tuple(
        (words_cell(row.outcome.code), words_cell(_asks(row)), _titles(row, ways, library)) for row, ways in rows
    )
    return Table((header, *body), (12, 34, 54), title, row_header=True, large=True)


def _titles(row: Served, ways: Sequence[How], library: Library) -> Cell:
    """Name activities way by way; of many the number only."""
    blocks = []
    for way in ways:
        titles = sorted(library.activities[name].title for name in getattr(row, way))
        if len(titles) > _MOST_TITLES:
            titles = [*titles[: _MOST_TITLES - 1], f"{len(titles) - _MOST_TITLES + 1} more"]
        if titles:
            blocks.append(Paragraph(labelled(_VERBS[way], f"{', '.join(titles)}.")))
    return cell(*blocks) if blocks else words_cell(f"{_VERBS[ways[-1]]} none yet.")


def _lessons(found: ClassCoverage, units: range, rows: Sequence[Served]) -> Table:
    """Return a table of outcomes by unit, with the numbers of the lessons in it."""
    header = (cell(sentence("Outcome"), span=2), *(words_cell(_short(found.plans[number])) for number in units))
    body = tuple(
        (
            words_cell(row.outcome.code),
            words_cell(_asks(row)),
            *(_marks(found, row.outcome.code, number) for number in units),
        )
        for row in rows
    )
    shares = (9.0, 26.0, *(65 / max(len(units), 4) for _ in units))
    return Table(
        (header, *body),
        shares,
        f"{found.title}: lessons of every unit for {rows[0].outcome.standard}",
        row_header=True,
        large=True,
    )


def _short(plan: PlanFacts) -> str:
    """Return a unit's title without its grade, which the page's title says, and with the number of its lessons."""
    title = plan.unit.title.removesuffix(f", grade {plan.school_class.grade}")
    lessons = len(plan.lessons)
    return f"{title} ({lessons}{NO_BREAK}lesson{'s' * (lessons > 1)})"


def _marks(found: ClassCoverage, code: str, number: int) -> Cell:
    serving, checking = found.serving[code][number], found.checking[code][number]
    blocks: list[Block] = []
    if serving:
        blocks.append(Paragraph(text(in_runs(serving))))
    if checking:
        blocks.append(Paragraph(text(f"check {in_runs(checking)}"), Role.SMALL))
    return cell(*blocks)


def _asks(row: Served) -> str:
    return row.outcome.says or row.outcome.topic
