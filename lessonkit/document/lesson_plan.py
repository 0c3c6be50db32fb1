"""The lesson plan: everything a teacher needs for one lesson on a sheet of paper."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache, lru_cache

from lessonkit.document.circuit_table import circuits
from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.detail import (
    BAREST,
    CIRCUIT_PACKINGS,
    PACKINGS,
    READY,
    ROOMY,
    CountPages,
    Cut,
    Detail,
    Packing,
    Ready,
    fullest,
    fullest_cut,
    fullest_detail,
    last_true,
    worth,
)
from lessonkit.document.keys import activity_key, field_key
from lessonkit.document.lesson_facts import WAYS_SAID, LessonFacts, PlanFacts, Target, brisk_minutes
from lessonkit.document.lesson_flow import Flow
from lessonkit.document.lesson_setup import setup_blocks
from lessonkit.document.model import (
    Block,
    Cell,
    Document,
    Heading,
    Inline,
    KeyValues,
    Link,
    PageBreak,
    Paragraph,
    Role,
    Strong,
    Table,
    Text,
    WritingSpace,
    text,
)
from lessonkit.document.pieces import EN_DASH, cell, keyed_bullets, words_cell
from lessonkit.document.same import Same
from lessonkit.records.activity import LookFor

_SHEET = 2
"""A lesson shall print on the two pages of one sheet."""
_KEPT = 96
"""How many lessons' details are kept."""
_NARROW = 32.0
"""The percentage of the page's width for the floor plan of a lesson whose steps need more than a sheet."""
_POOR = 7
"""The place in the list of first parts from which on so little is shown that an activity rather is parted."""


def lesson_document(facts: PlanFacts, number: int, pages: CountPages | None = None) -> Document:
    """Return one lesson of a plan as a document of its own. ``number`` is the lesson's number, from 1.

    With ``pages`` the lesson shows as much as a sheet of two pages holds, without it a usual amount.
    """
    lesson = next(found for found in facts.lessons if found.lesson.lesson == number)
    detail = lesson_detail(facts, lesson, pages)
    return _document(facts, lesson, lesson_blocks(facts, lesson, detail, links=False))


def lesson_detail(facts: PlanFacts, lesson: LessonFacts, pages: CountPages | None) -> Detail:
    """Return the fullest detail with which a lesson fits its sheet, room for notes last.

    Where much would have to be left out, an activity may begin on the first page and go on on the second.
    """
    return Detail() if pages is None else _fitted(Same(facts), Same(lesson), pages)


@lru_cache(maxsize=_KEPT)
def _fitted(of: Same[PlanFacts], shown: Same[LessonFacts], pages: CountPages) -> Detail:
    """Fit a lesson; a binder shows what the lesson's own file shows, so the last ones are kept.

    It is set as roomy as fits a sheet.
    """
    facts, lesson = of.record, shown.record
    parts = _Parts(facts, lesson)
    roomy, *closer = (
        _Trial(facts, lesson, parts, pages, packing) for packing in (CIRCUIT_PACKINGS if circuits(lesson) else PACKINGS)
    )
    return _fullest(roomy) or _fullest(fullest(closer, _Trial.holds)) or closer[-1].packed(BAREST)


def _fullest(trial: "_Trial") -> Detail | None:
    """Return the fullest detail that fits, whole or parted; None where none does."""
    whole = fullest_detail(trial.fits)
    if trial.fits(whole) and READY.index(whole.ready) < _POOR:
        return trial.packed(whole)
    parted = fullest_cut(trial.cut, trial.fits)
    best = max((whole, parted), key=lambda detail: (trial.fits(detail), worth(detail)))
    return trial.packed(best) if trial.fits(best) else None


class _Trial:
    """A lesson on trial: which details fit its sheet, and where they may part an activity."""

    def __init__(
        self, facts: PlanFacts, lesson: LessonFacts, parts: "_Parts", pages: CountPages, packing: Packing
    ) -> None:
        self._parts = parts
        self._facts = facts
        self._lesson = lesson
        self._pages = pages
        self._packing = packing
        self._last = 0
        """Where the last detail was cut; the next one's cut is looked for near to it."""

    def packed(self, detail: Detail) -> Detail:
        """Return a detail set as closely as this trial sets them."""
        return replace(detail, packing=self._packing)

    def holds(self) -> bool:
        """Tell whether the barest detail fits, whole or parted."""
        return self.fits(BAREST) or self.cut(BAREST) is not None

    def fits(self, detail: Detail) -> bool:
        """Tell whether a detail fits."""
        return self._count(self._parts.blocks(self.packed(detail))) <= _SHEET

    def cut(self, detail: Detail) -> Detail | None:
        """Return a detail with the cut that fills its first page, if one inside an activity does; None if none fits."""
        cuts = self._parts.flow.cuts(detail.remarks, self._packing)
        self._last = last_true(lambda place: self._begins(detail, cuts[place]), len(cuts), self._last)
        if self._last >= 0 and self._parts.flow.is_inside(cuts[self._last], detail.remarks, self._packing):
            detail = replace(detail, cut=cuts[self._last])
        return detail if self.fits(detail) else None

    def _count(self, blocks: tuple[Block, ...]) -> int:
        return self._pages(_document(self._facts, self._lesson, blocks))

    def _begins(self, detail: Detail, cut: Cut) -> bool:
        """Tell whether the lesson as far as a cut stands on its first page, whatever begins the second."""
        return self._count((*self._parts.beginning(self.packed(detail), cut), PageBreak(), Paragraph(()))) <= _SHEET


def lesson_blocks(
    facts: PlanFacts, lesson: LessonFacts, detail: Detail, *, links: bool, new_page: bool = False
) -> tuple[Block, ...]:
    """Return the blocks of one lesson; ``links`` makes outcome codes lead to the coverage page of the same document."""
    return _Parts(facts, lesson, links=links, new_page=new_page).blocks(detail)


class _Parts:
    """The parts of a lesson's page, each made once however many details are tried with it."""

    def __init__(self, facts: PlanFacts, lesson: LessonFacts, *, links: bool = False, new_page: bool = False) -> None:
        self._head = _head(facts, lesson, new_page)
        self._targets = cache(lambda criteria, close: _targets(lesson, criteria, links, close))
        self._setup = cache(lambda ready: setup_blocks(facts, lesson, ready))
        self.flow = Flow(lesson)
        self._flow = cache(self.flow.table)

    def blocks(self, detail: Detail) -> tuple[Block, ...]:
        """Return the blocks of the lesson with a detail."""
        notes = (WritingSpace("Notes for next time", detail.lines),) if detail.lines else ()
        return (
            *self._above(detail.ready, detail.packing),
            *(notes if detail.notes_first else ()),
            Heading(2, text("Minute by minute")),
            self._flow(detail.remarks, detail.cut, detail.packing),
            *(() if detail.notes_first else notes),
        )

    def beginning(self, detail: Detail, cut: Cut) -> tuple[Block, ...]:
        """Return the blocks of the lesson as far as a cut in its flow."""
        flow = self.flow.table(detail.remarks, packing=detail.packing, until=cut)
        return (*self._above(detail.ready, detail.packing), Heading(2, text("Minute by minute")), flow)

    def _above(self, ready: Ready, packing: Packing) -> tuple[Block, ...]:
        if packing != ROOMY:
            narrow = min(ready.column, _NARROW)
            wide = min(1.0, ready.drawing * ready.column / narrow)
            ready = replace(ready, column=narrow, drawing=wide, close=packing.close)
        targets = self._targets(ready.criteria, packing.close)
        return (*self._head, *targets, Heading(2, text("Get ready")), *self._setup(ready))


def lesson_anchor(number: int) -> str:
    """Return the anchor of a lesson's heading inside a binder."""
    return f"lesson_{number}"


def code_anchor(code: str) -> str:
    """Return the anchor of an outcome code on the coverage page."""
    return "outcome_" + "".join(letter if letter.isalnum() else "_" for letter in code)


def _document(facts: PlanFacts, lesson: LessonFacts, blocks: tuple[Block, ...]) -> Document:
    number = lesson.lesson.lesson
    return Document(
        title=f"Lesson {number}: {lesson.title}",
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.unit.title} {EN_DASH} lesson {number}",
        date=lesson.lesson.date,
        blocks=blocks,
        paper=facts.school.paper,
        keywords=tuple(target.code for target in lesson.targets),
    )


def _head(facts: PlanFacts, lesson: LessonFacts, new_page: bool) -> tuple[Block, ...]:
    plan = lesson.lesson
    pairs = (
        ("Class", f"{facts.school_class.title}, {facts.school_class.children} children"),
        ("When", f"{day_in_words(plan.date)}, {plan.at}"),
        ("Minutes", f"{plan.minutes}: about {lesson.moving:.0f} moving, {brisk_minutes(lesson)} briskly"),
        ("Where", lesson.space.title),
    )
    count = len(facts.lessons)
    return (
        *((PageBreak(),) if new_page else ()),
        Paragraph(
            text(f"{facts.unit.title} {EN_DASH} lesson {plan.lesson} of {count}"),
            Role.KICKER,
            field_key("plan", facts.plan.id, "lessons", plan.lesson),
        ),
        Heading(1, text(lesson.title), lesson_anchor(plan.lesson)),
        KeyValues(tuple((name, text(value)) for name, value in pairs)),
    )


def _targets(lesson: LessonFacts, criteria: int, links: bool, close: bool) -> tuple[Block, ...]:
    """Show the unit's aims that can be seen today in a table, the others in a line."""
    shown = tuple(target for target in lesson.targets if target.is_aim and target.look_for)
    others = tuple(target for target in lesson.targets if target not in shown)
    header = tuple(words_cell(words) for words in ("Outcome", "In a child's words", "What to look for"))
    rows = tuple(_target_row(target, lesson, criteria, links, close) for target in shown)
    blocks: list[Block] = [Heading(2, text("What we are learning"))]
    if rows:
        shares = (18, 37, 45) if close else (17, 38, 45)
        blocks.append(Table((header, *rows), shares, "Outcomes of this lesson", row_header=True))
    if others:
        blocks.append(Paragraph(tuple(_also(others, links, close)), Role.SMALL))
    return tuple(blocks)


def _also(targets: tuple[Target, ...], links: bool, close: bool) -> Iterator[Inline]:
    yield Strong(text("Also practiced: "))
    for number, target in enumerate(targets):
        yield from _code(target.code, links)
        topic = f" {target.outcome.topic}" if target.outcome and not close else ""
        yield Text(f"{topic}{'.' if number == len(targets) - 1 else ', ' if close else '; '}")


def _code(code: str, links: bool) -> tuple[Inline, ...]:
    return (Link(text(code), f"#{code_anchor(code)}"),) if links else text(code)


def _target_row(target: Target, lesson: LessonFacts, criteria: int, links: bool, close: bool) -> tuple[Cell, ...]:
    code, ways = _code(target.code, links), ", ".join(WAYS_SAID[way] for way in target.ways)
    served = (Paragraph((*code, Text(f" {ways}"))),) if close else (Paragraph(code), Paragraph(text(ways), Role.SMALL))
    shown = target.look_for[:criteria]
    says = {criterion.i_can: _criterion_key(lesson, criterion, "i_can") for criterion in shown}
    sees = {criterion.criterion: _criterion_key(lesson, criterion, "criterion") for criterion in shown}
    return (cell(*served), cell(*keyed_bullets(says)), cell(*keyed_bullets(sees)))


def _criterion_key(lesson: LessonFacts, criterion: LookFor, field: str) -> str | None:
    """Return the key of a criterion in the first activity of a lesson that has it."""
    for slot in lesson.slots:
        if criterion in slot.activity.look_for:
            return activity_key(slot.activity.id, "look_for", slot.activity.look_for.index(criterion), field)
    return None
