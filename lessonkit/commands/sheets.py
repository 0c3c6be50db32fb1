"""The further documents of a plan that ``export --sheets`` writes, by name."""

from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from datetime import date

    from lessonkit.document.detail import CountPages
    from lessonkit.document.lesson_facts import PlanFacts
    from lessonkit.document.model import Document
    from lessonkit.writers.options import SchoolLook


class Asked(NamedTuple):
    """What the caller asks of every sheet: how pages are counted, and the last day that coverage counts.

    With ``own_letters`` pages are set in a school's letters, whose widths are known less well than ours.
    """

    pages: "CountPages"
    until: "date | None"
    own_letters: bool = False


def sheet_documents(
    name: str, facts: "PlanFacts", look: "SchoolLook | None" = None, until: "date | None" = None
) -> "Iterator[tuple[str, Document]]":
    """Yield the documents of one kind with the names of their files; nothing where the plan has none.

    They are fitted to the pages of the school's own look, if it has one. Coverage counts lessons up to ``until``.
    """
    from functools import partial

    from lessonkit.writers.word.writer import safe_pages

    yield from SHEETS[name](facts, Asked(partial(safe_pages, look=look), until, look is not None))


def missing_says(name: str) -> str:
    """Say in a sentence why a plan has no document of a kind."""
    return _MISSING.get(name, f"There is nothing to write for {name}.")


def _substitute(facts: "PlanFacts", asked: "Asked") -> "Iterator[tuple[str, Document]]":
    from lessonkit.document.substitute_sheet import substitute_document

    for lesson in facts.lessons:
        number = lesson.lesson.lesson
        yield f"substitute-{number:02}", substitute_document(facts, number, asked.pages)


def _letter(facts: "PlanFacts", asked: "Asked") -> "Iterator[tuple[str, Document]]":
    from lessonkit.document.family_letter import letter_document

    if letter := letter_document(facts, asked.pages):
        yield "family-letter", letter


def _cards(facts: "PlanFacts", asked: "Asked") -> "Iterator[tuple[str, Document]]":
    from lessonkit.document.station_cards import station_cards

    if cards := station_cards(facts, asked.pages, own_letters=asked.own_letters):
        yield "station-cards", cards


def _rotation(facts: "PlanFacts", asked: "Asked") -> "Iterator[tuple[str, Document]]":
    from lessonkit.document.rotation_sheet import rotation_sheets

    for number, sheet in rotation_sheets(facts, asked.pages):
        yield f"rotation-{number:02}", sheet


def _pull_list(facts: "PlanFacts", asked: "Asked") -> "Iterator[tuple[str, Document]]":
    from lessonkit.document.pull_list import pull_list

    yield "pull-list", pull_list(facts, _others(facts), asked.pages)


def _check_list(facts: "PlanFacts", asked: "Asked") -> "Iterator[tuple[str, Document]]":
    from lessonkit.document.check_sheet import check_sheet

    if sheet := check_sheet(facts, asked.pages):
        yield "check-list", sheet


def _coverage(facts: "PlanFacts", asked: "Asked") -> "Iterator[tuple[str, Document]]":
    from lessonkit.document.coverage_report import coverage_report

    plans = (facts, *_others(facts))
    for grade in facts.school_class.grades:
        report = coverage_report(
            facts.framework,
            grade,
            facts.library,
            plans,
            date=facts.lessons[0].lesson.date,
            author=facts.school.title,
            paper=facts.school.paper,
            until=asked.until,
        )
        yield f"coverage-grade-{grade.lower()}", report


def _others(facts: "PlanFacts") -> "tuple[PlanFacts, ...]":
    """Work out the other plans of the curriculum."""
    from lessonkit.document.lesson_facts import work_out

    plans = facts.library.plans
    return tuple(work_out(plans[key], facts.library) for key in sorted(plans) if key != facts.plan.id)


SHEETS: "Mapping[str, Callable[[PlanFacts, Asked], Iterator[tuple[str, Document]]]]" = {
    "substitute": _substitute,
    "letter": _letter,
    "cards": _cards,
    "rotation": _rotation,
    "pull-list": _pull_list,
    "check-list": _check_list,
    "coverage": _coverage,
}
"""Kinds of further documents by the name that a teacher chooses."""
_MISSING = {
    "letter": "There is no family letter: the unit has no field letter yet.",
    "cards": "There are no station cards: no activity of the plan can be a station.",
    "rotation": "There is no rotation sheet: no lesson of the plan has a circuit of stations.",
    "check-list": "There is no check list: the plan neither checks an outcome nor measures a task.",
}
