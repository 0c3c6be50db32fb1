"""A year of real records: weeks by the calendar, what follows what, maps made again, and why there may be none."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from dateutil.rrule import MO, WEEKLY, rrule
from msgspec import structs

from lessonkit.loading.folder import load_folder
from lessonkit.planning.sequence import Options
from lessonkit.planning.year.audit import audit_map, case_of, map_outdated
from lessonkit.planning.year.map_year import Mapped, NoMap, map_year
from lessonkit.planning.year.setup import Again, set_up_year
from lessonkit.planning.year.worth import is_edited
from lessonkit.planning.year.write_map import map_text
from lessonkit.records.library import Library
from lessonkit.records.school import Closure
from lessonkit.records.unit import Unit
from lessonkit.records.year import MappedUnit, Year, YearUnit

ROOT = Path(__file__).parents[3]
CLASSES = {"2": ("grade-2-swallow", "grade-2-martin"), "3": ("grade-3-heron", "grade-3-kestrel")}
TITLES = ("a", "b", "c", "d")


@pytest.fixture(scope="module")
def library() -> Library:
    """Return the starter curriculum with four units of ten lessons for each of two grades."""
    shipped = load_folder(ROOT / "curriculum", "curriculum").library
    pattern = shipped.units["paddles-grade-3"]
    units: dict[str, Unit] = {}
    for grade, classes in CLASSES.items():
        for title in TITLES:
            unit = structs.replace(
                pattern, id=f"{title}-{grade}", title=f"{title} {grade}", classes=classes, lessons=10
            )
            units[unit.id] = unit
    return structs_of(shipped, units)


def structs_of(shipped: Library, units: dict[str, Unit]) -> Library:
    """Return a library with other units, and no plans or years."""
    return Library(
        activities=shipped.activities,
        frameworks=shipped.frameworks,
        schools=shipped.schools,
        skills=shipped.skills,
        items=shipped.items,
        units=units,
    )


def year_of(**changes: YearUnit) -> Year:
    """Return a year with the units of both grades, some of them changed."""
    units = [
        changes.get(f"{title}_{grade}", YearUnit(unit=f"{title}-{grade}")) for grade in CLASSES for title in TITLES
    ]
    return Year(kind="year", id="year", title="Year", school="quillfeather", framework="us-pe-2013", units=tuple(units))


def mapped(library: Library, year: Year, again: Again | None = None) -> Mapped:
    """Return the map of a year, which must exist."""
    found = map_year(library, year, Options(), again)
    assert isinstance(found, Mapped)
    return found


def weeks(found: Mapped) -> dict[str, str]:
    """Return the Monday of every unit."""
    return {each.unit: each.week_of for each in found.year_map.units}


def test_weeks_are_the_mondays_of_the_calendar(library: Library) -> None:
    """The weeks are those that dateutil's recurrence rule gives for the Mondays of the school year."""
    calendar = library.schools["quillfeather"].calendar
    case = set_up_year(library, year_of())
    rule = rrule(WEEKLY, byweekday=MO, dtstart=date(2026, 8, 31), until=date.fromisoformat(calendar.last_day))

    assert tuple(day.date() for day in rule) == case.mondays


def test_a_unit_ends_after_its_lessons(library: Library) -> None:
    """Ten lessons from Monday 31 August: without Labor Day the tenth on Mondays and Wednesdays is on 5 October.

    31 Aug, 2, 9, 14, 16, 21, 23, 28, 30 Sep, 5 Oct (counted by hand on a calendar; Labor Day is 7 September 2026).
    """
    case = set_up_year(library, year_of())
    swallow_and_martin = case.lasts[0][0]

    assert date(2026, 10, 5) == swallow_and_martin


def test_what_a_unit_follows_is_over_before_it_begins(library: Library) -> None:
    """A unit that follows another one begins in a later week than the other one ends."""
    found = mapped(library, year_of(a_3=YearUnit(unit="a-3", follows=("d-3",))))
    lasts = {each.unit: each.last for each in found.year_map.units}

    assert lasts["d-3"] < weeks(found)["a-3"]


def test_days_set_for_a_unit_are_kept(library: Library) -> None:
    """Not before, over by and week of hold, and so do quiet weeks."""
    year = year_of(
        a_2=YearUnit(unit="a-2", not_before="2027-04-01"),
        b_2=YearUnit(unit="b-2", over_by="2026-10-16"),
        c_2=YearUnit(unit="c-2", week_of="2027-01-13"),
    )
    found = mapped(library, year)

    assert weeks(found)["a-2"] >= "2027-04-05"
    assert next(each.last for each in found.year_map.units if each.unit == "b-2") <= "2026-10-16"
    assert "2027-01-11" == weeks(found)["c-2"]


def test_the_same_year_gives_the_same_map(library: Library) -> None:
    """Two runs write the same text, and reading it back breaks nothing."""
    year = year_of()
    first, second = mapped(library, year), mapped(library, year)
    whole = with_year(library, year)

    assert map_text(first.year_map, library) == map_text(second.year_map, library)
    case = case_of(first.year_map, whole)
    assert ((), None) == (audit_map(first.year_map, case), map_outdated(first.year_map, case))
    assert not is_edited(first.year_map)


def with_year(library: Library, year: Year) -> Library:
    """Return a library that holds a year."""
    return Library(
        frameworks=library.frameworks,
        schools=library.schools,
        skills=library.skills,
        activities=library.activities,
        units=library.units,
        years={year.id: year},
    )


def test_a_map_changed_by_hand_is_audited(library: Library) -> None:
    """A unit moved into another one's weeks, and a day that is no Monday, are said at their places."""
    year = year_of()
    found = mapped(library, year).year_map
    first, second = (each for each in found.units if each.unit in ("a-3", "b-3"))
    moved = MappedUnit(unit=second.unit, week_of=first.week_of, last=first.last)
    place = found.units.index(second)
    both = structs.replace(found, units=(*found.units[:place], moved, *found.units[place + 1 :]))
    odd = MappedUnit(unit=second.unit, week_of="2026-09-01", last=second.last)
    no_monday = structs.replace(found, units=(*found.units[:place], odd, *found.units[place + 1 :]))

    case = case_of(both, with_year(library, year))
    said = [says for _, says in audit_map(both, case)]
    assert any(says.startswith("Two units of Grade 3 Heron and Grade 3 Kestrel fall into the week of") for says in said)
    assert is_edited(both)
    assert ((("units", place, "week_of"), "2026-09-01 is not a Monday."),) == audit_map(no_monday, case)


def test_a_lost_fortnight_moves_few_units(library: Library) -> None:
    """What has begun stays; the units of a lost fortnight take longer, and only those that must move do."""
    year = year_of()
    before = mapped(library, year)
    lost = structs.replace(year, lost=(Closure(first="2027-01-11", last="2027-01-22", why="Burst pipe in the gym"),))
    after = mapped(library, lost, Again(before.year_map, date(2027, 1, 25)))
    fresh = mapped(library, lost)

    assert {u: w for u, w in weeks(before).items() if w < "2027-01-25"} == {
        u: w for u, w in weeks(after).items() if w < "2027-01-25"
    }
    moved = sum(weeks(before)[unit] != week for unit, week in weeks(after).items())
    assert moved <= sum(weeks(before)[unit] != week for unit, week in weeks(fresh).items())
    assert moved <= 2


def test_too_many_lessons_are_counted(library: Library) -> None:
    """Four units of twenty lessons do not fit into a year of about seventy, and the sentence says both numbers."""
    units = {key: structs.replace(unit, lessons=20) for key, unit in library.units.items()}
    found = map_year(structs_of(library, units), year_of(), Options())

    assert isinstance(found, NoMap)
    says = found.because[0].says
    assert says.startswith("The units of Grade 2 Swallow and Grade 2 Martin have 80 lessons; the school year has ")


def test_a_circle_is_shown_as_a_path(library: Library) -> None:
    """Units that follow each other in a circle are named in its order."""
    year = year_of(
        a_3=YearUnit(unit="a-3", follows=("b-3",)),
        b_3=YearUnit(unit="b-3", follows=("c-3",)),
        c_3=YearUnit(unit="c-3", follows=("a-3",)),
    )
    found = map_year(library, year, Options())

    assert isinstance(found, NoMap)
    assert ["These units follow each other in a circle: a 3 follows b 3 follows c 3 follows a 3."] == [
        said.says for said in found.because
    ]


def test_demands_that_exclude_each_other_are_named(library: Library) -> None:
    """Only the demands that cannot hold together are named, and none beside them."""
    year = year_of(
        a_3=YearUnit(unit="a-3", over_by="2026-11-25", follows=("b-3",)),
        b_3=YearUnit(unit="b-3", not_before="2026-10-05"),
        c_3=YearUnit(unit="c-3", not_before="2027-01-01"),
    )
    found = map_year(library, year, Options())

    assert isinstance(found, NoMap)
    said = [each.says for each in found.because]
    assert "a 3 is over by 2026-11-25." in said
    assert "b 3 begins on 2026-10-05 at the earliest." in said
    assert "a 3 can begin only when b 3 is over." in said
    assert not any("c 3" in says or " 2 " in says for says in said)


def test_two_classes_in_one_gym_are_said(library: Library) -> None:
    """A class moved to another one's time is named with it, at its weekly lesson in the school's record."""
    school = library.schools["quillfeather"]
    classes = list(school.classes)
    heron = next(number for number, one in enumerate(classes) if one.id == "grade-3-heron")
    kestrel = next(one for one in classes if one.id == "grade-3-kestrel")
    classes[heron] = structs.replace(classes[heron], meets=(structs.replace(kestrel.meets[0], at="11:20"),))
    moved = structs_of(library, dict(library.units))
    moved = replace(moved, schools={"quillfeather": structs.replace(school, classes=tuple(classes))})
    found = map_year(moved, year_of(), Options())

    assert isinstance(found, NoMap)
    says = "Grade 3 Kestrel and Grade 3 Heron are both in the gym on Monday at 11:00."
    assert [(says, ("classes", heron + 1, "meets", 0))] == [(said.says, said.field) for said in found.because]
