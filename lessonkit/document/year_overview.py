"""The yearly overview: a planner of the whole school on one page, and a page for the classes of each grade.

The planner's columns stand for calendar weeks from Monday.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import groupby

from lessonkit.document.columns import without_idle_columns
from lessonkit.document.dates_in_words import month_name, short_day
from lessonkit.document.detail import CountPages
from lessonkit.document.model import Block, Cell, Document, Heading, KeyValues, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, NO_BREAK, cell, sentence, strong_cell, words_cell
from lessonkit.document.row_heights import filled_up
from lessonkit.outcomes.coverage import active_outcomes
from lessonkit.outcomes.practised import outcomes_of
from lessonkit.records.framework import Outcome
from lessonkit.records.library import Library
from lessonkit.records.school import School, SchoolClass
from lessonkit.records.unit import Unit
from lessonkit.records.year import MappedUnit, YearMap

_HEIGHTS = (72.0, 68.0, 64.0, 60.0, 56.0, 52.0, 48.0, 44.0, 40.0, 36.0, 32.0, 28.0, 24.0)
"""Least heights of the planner's rows in points."""


@dataclass(frozen=True, slots=True)
class _Line:
    """The classes that share their units, and those units in their weeks."""

    classes: tuple[SchoolClass, ...]
    units: tuple[MappedUnit, ...]

    @property
    def title(self) -> str:
        """The classes' titles."""
        return " and ".join(one.title for one in self.classes)


def year_documents(found: YearMap, library: Library, pages: CountPages | None = None) -> Iterator[tuple[str, Document]]:
    """Yield the overview of the school, and one for each group of classes, with the names of their files.

    With ``pages`` the rows of the school's planner are as tall as its page holds.
    """
    school = library.schools[found.school]
    lines = tuple(_lines(found, library, school))
    yield "year-school", _fitted(found, lines, library, pages)
    for line in lines:
        grades = "-".join(dict.fromkeys(one.grade.lower() for one in line.classes))
        yield (
            f"year-grade-{grades}",
            _document(f"The year of {line.title}", found, library, _grade(line, found, library)),
        )


def _fitted(found: YearMap, lines: tuple[_Line, ...], library: Library, pages: CountPages | None) -> Document:
    title = library.years[found.year].title

    def blocks_of(height: float) -> tuple[Block, ...]:
        return _document(title, found, library, _school(found, lines, library, height)).blocks

    blocks = filled_up(blocks_of, _HEIGHTS, pages, library.schools[found.school].paper, landscape=True)
    return replace(_document(title, found, library, ()), blocks=blocks)


def _document(title: str, found: YearMap, library: Library, blocks: tuple[Block, ...]) -> Document:
    school = library.schools[found.school]
    return Document(
        title=title,
        subject=library.years[found.year].title,
        author=school.title,
        footer=f"{school.title} {EN_DASH} {library.years[found.year].title}",
        date=school.calendar.first_day,
        blocks=(Heading(1, text(title)), *blocks),
        paper=school.paper,
        landscape=True,
    )


def _lines(found: YearMap, library: Library, school: School) -> Iterator[_Line]:
    groups: dict[tuple[MappedUnit, ...], list[SchoolClass]] = {}
    for one in school.classes:
        taught = tuple(each for each in found.units if one.id in library.units[each.unit].classes)
        if taught:
            groups.setdefault(taught, []).append(one)
    for units, classes in groups.items():
        yield _Line(tuple(classes), tuple(sorted(units, key=lambda each: each.week_of)))


def _mondays(school: School) -> tuple[date, ...]:
    first = date.fromisoformat(school.calendar.first_day)
    monday = first - timedelta(days=first.weekday())
    count = (date.fromisoformat(school.calendar.last_day) - monday).days // 7 + 1
    return tuple(monday + timedelta(weeks=n) for n in range(count))


def _school(found: YearMap, lines: tuple[_Line, ...], library: Library, height: float) -> tuple[Block, ...]:
    mondays = _mondays(library.schools[found.school])
    says = "A unit stands over the weeks it is taught in; an empty space is time for what needs more of it."
    return (sentence(says, Role.SUMMARY), _planner(lines, mondays, library, height), *_left_out(found, library))


def _planner(lines: tuple[_Line, ...], mondays: tuple[date, ...], library: Library, height: float) -> Table:
    header = (words_cell("Classes"), *(cell(sentence(words), span=weeks) for words, weeks in _months(mondays)))
    rows = tuple((strong_cell(line.title), *_bars(line, mondays, library)) for line in lines)
    shares = (13.0, *(87 / len(mondays) for _ in mondays))
    weeks = Table((header, *rows), shares, "The units of every class by week", row_header=True, row_height=height)
    return without_idle_columns(weeks)


def _months(mondays: tuple[date, ...]) -> list[tuple[str, int]]:
    """Return the months with their weeks; one of a single week at an end of the year joins its neighbor."""
    months = [(month_name(month), len(list(weeks))) for month, weeks in groupby(mondays, lambda monday: monday.month)]
    if len(months) > 1 and months[0][1] == 1:
        months[:2] = [(months[1][0], months[1][1] + 1)]
    if len(months) > 1 and months[-1][1] == 1:
        months[-2:] = [(months[-2][0], months[-2][1] + 1)]
    return months


def _bars(line: _Line, mondays: tuple[date, ...], library: Library) -> Iterator[Cell]:
    """Yield a cell for every unit and every space between units, left to right."""
    week = 0
    for each in line.units:
        first = (date.fromisoformat(each.week_of) - mondays[0]).days // 7
        last = (date.fromisoformat(each.last) - mondays[0]).days // 7
        if first > week:
            yield cell(span=first - week)
        dates = f"{_day(each.week_of)} {EN_DASH} {_day(each.last)}"
        title = Paragraph(text(library.units[each.unit].title))
        yield cell(title, Paragraph(text(dates), Role.SMALL), span=last - first + 1, shaded=True)
        week = last + 1
    if week < len(mondays):
        yield cell(span=len(mondays) - week)


def _day(iso: str) -> str:
    """Return ``Jan 5`` for ``2027-01-05``, not to be broken over two lines."""
    return short_day(iso).partition(" ")[2].replace(" ", NO_BREAK)


def _left_out(found: YearMap, library: Library) -> Iterator[Block]:
    if found.left_out:
        names = ", ".join(library.units[unit].title for unit in found.left_out)
        yield sentence(f"Optional units without a place this year: {names}.", Role.SMALL)


def _grade(line: _Line, found: YearMap, library: Library) -> tuple[Block, ...]:
    framework = library.frameworks[library.years[found.year].framework]
    units = [library.units[each.unit] for each in line.units]
    covered = frozenset[str]().union(*(outcomes_of(unit, library) for unit in units))
    active = [
        one for grade in dict.fromkeys(c.grade for c in line.classes) for one in active_outcomes(framework, grade)
    ]
    missing = [one for one in active if one.code not in covered]
    lessons = sum(unit.lessons or 0 for unit in units)
    pairs = (
        ("Units", str(len(units))),
        ("Lessons", str(lessons)),
        ("Outcomes practiced", f"{len(active) - len(missing)} of {len(active)}"),
    )
    return (
        KeyValues(tuple((name, text(value)) for name, value in pairs)),
        _units(line, library, {one.code for one in active}),
        *_missing(missing),
    )


def _units(line: _Line, library: Library, active: set[str]) -> Table:
    header = tuple(words_cell(words) for words in ("Week of", "Last lesson", "Unit", "Lessons", "Skills", "Aims"))
    rows = []
    for each in line.units:
        unit = library.units[each.unit]
        skills = ", ".join(library.skills[skill].title for skill in unit.skills)
        aims = ", ".join(aim.code for aim in unit.aims if aim.code in active)
        rows.append(
            (
                words_cell(short_day(each.week_of).replace(" ", NO_BREAK)),
                words_cell(short_day(each.last).replace(" ", NO_BREAK)),
                cell(Paragraph(text(unit.title), Role.BODY), sentence(unit.summary, Role.SMALL)),
                words_cell(_length(unit)),
                words_cell(skills),
                words_cell(aims or EN_DASH),
            )
        )
    return Table((header, *rows), (11, 11, 34, 7, 19, 18), "The units of the year in their order", large=True)


def _length(unit: Unit) -> str:
    return f"{unit.weeks} weeks" if unit.lessons is None else str(unit.lessons)


def _missing(missing: list[Outcome]) -> Iterator[Block]:
    if not missing:
        yield sentence("Every active outcome of the grade is practiced in the year.", Role.READING)
        return
    yield Heading(2, text(f"Not practiced in this year ({len(missing)})"))
    header = (words_cell("Outcome"), words_cell("What it asks for"))
    rows = tuple((words_cell(one.code), words_cell(one.says or one.topic)) for one in missing)
    yield Table((header, *rows), (16, 84), "Outcomes that no unit of the year practices", row_header=True, large=True)
