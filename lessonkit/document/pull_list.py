"""The equipment pull list: what to fetch for the unit, for each lesson, and for a day on which several classes meet."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.detail import CountPages
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, stations_of
from lessonkit.document.model import Block, Cell, CheckBoxes, Document, Heading, PageBreak, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, bullets, cell, sentence, strong_cell, words_cell
from lessonkit.logistics.buying import to_buy
from lessonkit.logistics.equipment import Counts, Shortage, clash_says, clashes, in_sequence, peaks, shortages
from lessonkit.logistics.equipment_day import change_overs, change_says, item_counted
from lessonkit.logistics.words import listed


@dataclass(frozen=True, slots=True)
class Visit:
    """A class in a lesson of a day: when it begins, what it is called, what it needs."""

    at: str
    title: str
    grade: str
    needs: Counts


def pull_list(facts: PlanFacts, others: Sequence[PlanFacts] = (), pages: CountPages | None = None) -> Document:
    """Return the pull list of a plan; ``others`` are further plans of the school, whose lessons may share its days.

    With ``pages`` the list of a lesson or a day stays on one page where it can.
    """
    most = peaks((f"lesson {lesson.lesson.lesson}", dict(lesson.equipment)) for lesson in facts.lessons)
    unit = {item: count for item, (count, _) in most.items()}
    grade = facts.school_class.grade
    return Document(
        title=f"Equipment pull list: {facts.unit.title}",
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.unit.title} {EN_DASH} equipment for {facts.school_class.title}",
        date=facts.lessons[0].lesson.date,
        blocks=(
            Heading(1, text("Equipment for the unit")),
            sentence(
                f"{facts.unit.title}: {facts.school_class.title}, {facts.school_class.children} children. *Needed* is "
                "the most that any one lesson uses; the parts of a lesson use the same pieces one after the other.",
                Role.SUMMARY,
            ),
            *_list(facts, unit, "Equipment for the unit", grade),
            *_peaks_say(facts, unit, most),
            *_unbroken("Lesson by lesson", [_lesson(facts, lesson) for lesson in facts.lessons], facts, pages),
            *_unbroken("Days with several classes", _days(facts, others), facts, pages),
        ),
        paper=facts.school.paper,
    )


def _peaks_say(facts: PlanFacts, unit: Counts, most: Mapping[str, tuple[int, str]]) -> tuple[Block, ...]:
    """Say in which lesson most is needed of the items that are short."""
    short = shortages(unit, facts.school, facts.library.items, facts.school_class.grade)
    said = listed(
        [f"{item_counted(each.item, each.needed, facts.library.items)} in {most[each.item][1]}" for each in short]
    )
    return (Paragraph(text(f"Most is needed at once: {said}."), Role.SMALL),) if said else ()


def shared_days(facts: PlanFacts, others: Sequence[PlanFacts]) -> Mapping[str, tuple[Visit, ...]]:
    """Return the days (ISO dates) of a plan on which other plans of its school meet too, with the day's lessons."""
    days: dict[str, list[Visit]] = {}
    for plan in (facts, *(other for other in others if other.school.id == facts.school.id)):
        for lesson in plan.lessons:
            title = plan.school_class.title
            visit = Visit(lesson.lesson.at, title, plan.school_class.grade, dict(lesson.equipment))
            days.setdefault(lesson.lesson.date, []).append(visit)
    own = sorted({lesson.lesson.date for lesson in facts.lessons})
    return {day: tuple(sorted(days[day], key=lambda v: (v.at, v.title))) for day in own if len(days[day]) > 1}


def _unbroken(
    title: str, lists: Sequence[tuple[Block, ...]], facts: PlanFacts, pages: CountPages | None
) -> tuple[Block, ...]:
    """Put lists below a title, on a new page each that would not end on the page it begins on; nothing for none."""
    if not lists:
        return ()
    done: list[Block] = []
    page: list[Block] = [Heading(1, text(title), new_page=True)]
    for blocks in lists:
        tried = Document("", "", "", "", "", (*page, *blocks), paper=facts.school.paper)
        if len(page) > 1 and pages is not None and pages(tried) > 1:
            done += page
            page = [PageBreak()]
        page += blocks
    return (*done, *page)


def _lesson(facts: PlanFacts, lesson: LessonFacts) -> tuple[Block, ...]:
    plan = lesson.lesson
    title = f"Lesson {plan.lesson}, {day_in_words(plan.date)}, {plan.at}"
    return (
        Heading(2, text(title)),
        *_list(facts, dict(lesson.equipment), title, facts.school_class.grade),
        *bullets(_clashes_say(facts, lesson)),
    )


def _clashes_say(facts: PlanFacts, lesson: LessonFacts) -> Iterable[str]:
    """Say what several stations of a circuit use at once and of which there is too little."""
    for part in stations_of(lesson.slots):
        for clash in clashes([(slot.activity.title, slot.needs) for slot in part], facts.school):
            yield clash_says(clash, facts.item_name(clash.item, 2))


def _days(facts: PlanFacts, others: Sequence[PlanFacts]) -> list[tuple[Block, ...]]:
    return [_day(facts, day, visits) for day, visits in shared_days(facts, others).items()]


def _day(facts: PlanFacts, day: str, visits: tuple[Visit, ...]) -> tuple[Block, ...]:
    title = day_in_words(day)
    needs = in_sequence(visit.needs for visit in visits)
    changes = change_overs([(f"{visit.title} ({visit.at})", visit.needs) for visit in visits])
    grades = {visit.grade for visit in visits}
    return (
        Heading(2, text(title)),
        sentence(f"{listed([f'{visit.title} at {visit.at}' for visit in visits])}."),
        *_list(facts, needs, title, grades.pop() if len(grades) == 1 else None),
        *bullets(change_says(change, facts.library.items) for change in changes),
    )


def _list(facts: PlanFacts, needs: Counts, title: str, grade: str | None) -> tuple[Block, ...]:
    """Return items to tick off and what is there; where something is short, what stands in for it too."""
    if not needs:
        return (sentence("Nothing is needed."),)
    short = {found.item: found for found in shortages(needs, facts.school, facts.library.items, grade)}
    rows = [_row(facts, item, count) for item, count in needs.items()]
    titles: tuple[str, ...] = ("Ready", "Item", "Needed", "In school")
    shares: tuple[float, ...] = (8.0, 62.0, 15.0, 15.0)
    if short:
        titles, shares = (*titles, "Short", "Instead"), (8.0, 34.0, 9.0, 11.0, 8.0, 30.0)
        missing = [_missing(facts, short.get(item)) for item in needs]
        rows = [(*row, *more) for row, more in zip(rows, missing, strict=True)]
    header = tuple(words_cell(words) for words in titles)
    return (Table((header, *rows), shares, title), *_still_short(facts, short.values()))


def _row(facts: PlanFacts, item: str, count: int) -> tuple[Cell, ...]:
    return (
        cell(CheckBoxes(((),))),
        strong_cell(facts.item_name(item, count)),
        strong_cell(str(count)),
        words_cell(str(facts.school.owned(item))),
    )


def _missing(facts: PlanFacts, short: Shortage | None) -> tuple[Cell, Cell]:
    """Return how many of an item are missing, and what takes their place."""
    if short is None:
        return words_cell(EN_DASH), words_cell("")
    return strong_cell(str(short.needed - short.owned)), words_cell(_instead(facts, short))


def _instead(facts: PlanFacts, short: Shortage) -> str:
    """Say which other items stand in, or what to use that is no equipment."""
    if short.stand_ins:
        return listed([item_counted(other, count, facts.library.items) for other, count in short.stand_ins])
    return listed(short.improvise) or "nothing known"


def _still_short(facts: PlanFacts, short: Iterable[Shortage]) -> tuple[Block, ...]:
    left = [each for each in short if each.still_short]
    if not left:
        return ()
    return tuple(Paragraph(text(purchase.says), Role.SMALL) for purchase in to_buy(left, facts.library.items))
