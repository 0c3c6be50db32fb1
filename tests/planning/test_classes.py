"""Several classes: combined grades, parallel classes, and classes in a row."""

from dataclasses import replace

import msgspec

from lessonkit.planning.audit_plan import audit_plan, inputs_changed
from lessonkit.planning.sequence import Options, Planned, sequence
from lessonkit.planning.setup import set_up
from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.measures import read_band
from lessonkit.records.plan import Plan
from lessonkit.records.school import Meeting, SchoolClass

from .school_records import activity, library, school, unit


def _with_class(found: Library, added: SchoolClass) -> Library:
    own = found.schools["quillfeather"]
    return replace(found, schools={"quillfeather": msgspec.structs.replace(own, classes=(*own.classes, added))})


def _plan(found: Library, name: str) -> Plan:
    outcome = sequence(found, "taps", name, Options())
    assert isinstance(outcome, Planned), outcome
    return outcome.plan


def _wren(at: str = "10:45", **changes: object) -> SchoolClass:
    heron = school().classes[0]
    meets = tuple(Meeting(day=each.day, at=at, minutes=30) for each in heron.meets)
    return msgspec.structs.replace(heron, id="wren", title="Grade 3 Wren", meets=meets, **changes)


def _only_for(grades: str) -> Activity:
    return activity("big-jumps", "warm-up", minutes=(3, 4, 6, 0), grades=read_band(grades))


def test_a_combined_class_takes_what_is_for_all_its_grades() -> None:
    """A class of grades 3 and 4 cannot do what is for grade 3 only, and the sentence names grade 4."""
    combined = msgspec.structs.replace(school().classes[0], also_grades=("4",))
    found = library(extra=(_only_for("3"),))
    case = set_up(found, found.units["taps"], combined)

    assert ["Big Jumps is written for grade 3, not for grade 4."] == [
        bar.said.says for bar in case.left_out if bar.activity == "big-jumps"
    ]
    assert ("3", "4") == combined.grades


def test_classes_in_a_row_keep_the_equipment_out() -> None:
    """Asked for, the second class uses the kinds that the class before leaves out wherever that costs nothing else."""
    asked = unit(classes=("heron", "wren"), wishes={"back-to-back": "high"})
    found = _with_class(library(asked), _wren())
    first = _plan(found, "heron")
    known = replace(found, plans={first.id: first})
    case = set_up(known, asked, known.schools["quillfeather"].school_class("wren"))

    assert [frame.out for frame in case.problem.lessons] == [
        tuple(sorted({need.item for slot in lesson.activities for need in found.activities[slot.activity].equipment}))
        for lesson in first.lessons
    ]
    second = _plan(known, "wren")
    assert second.made is not None
    assert () == audit_plan(second, known)
    assert None is inputs_changed(second, known)


def test_without_being_asked_the_class_before_does_not_matter() -> None:
    """A plan depends on another class's plan only where the request asks for it."""
    found = _with_class(library(unit(classes=("heron", "wren"))), _wren())
    first = _plan(found, "heron")
    known = replace(found, plans={first.id: first})
    case = set_up(known, known.units["taps"], known.schools["quillfeather"].school_class("wren"))

    assert {None} == {frame.out for frame in case.problem.lessons}


def test_a_class_an_hour_later_is_not_in_a_row() -> None:
    """More than a quarter of an hour between two lessons is enough to put things away."""
    asked = unit(classes=("heron", "wren"), wishes={"back-to-back": "high"})
    found = _with_class(library(asked), _wren(at="11:15"))
    first = _plan(found, "heron")
    known = replace(found, plans={first.id: first})
    case = set_up(known, asked, known.schools["quillfeather"].school_class("wren"))

    assert {None} == {frame.out for frame in case.problem.lessons}
