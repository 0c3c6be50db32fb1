"""A small invented school with a unit on tapping, enough to plan four lessons; tests change what they are about."""

from dataclasses import replace
from typing import Any

import msgspec

from lessonkit.records.activity import (
    Activity,
    Effort,
    Floor,
    How,
    Inclusion,
    LessonPart,
    Measured,
    Minutes,
    Need,
    Organisation,
    SkillStep,
)
from lessonkit.records.equipment import Catalogue, Item
from lessonkit.records.framework import Framework, Outcome, Spelling
from lessonkit.records.library import AnyRecord, Library, build_library
from lessonkit.records.measures import read_band, read_length
from lessonkit.records.school import Calendar, Meeting, Owned, School, SchoolClass, Space
from lessonkit.records.skill import Skill, Step
from lessonkit.records.unit import Aim, Shape, ShapePart, Unit

FRAMEWORK = "made-up"
AIMS = ("T1.3", "T2.3")


def activity(
    name: str,
    *parts: LessonPart,
    step: str | None = None,
    serves: dict[str, tuple[How, ...]] | None = None,
    minutes: tuple[int, int, int, int] = (4, 7, 10, 1),
    effort: Effort = "moderate",
    **changes: Any,
) -> Activity:
    """Return an activity called ``name``; ``serves`` maps outcome codes to how it serves them."""
    least, usual, most, setup = minutes
    plain = Activity(
        kind="activity",
        id=name,
        title=name.replace("-", " ").title(),
        summary="",
        grades=read_band("2-4"),
        parts=parts,
        skills=(SkillStep(skill="tapping", step=step),) if step else (),
        outcomes={FRAMEWORK: serves or {}},
        minutes=Minutes(least=least, usual=usual, most=most, setup=setup),
        organisation=Organisation(form="individuals"),
        equipment=(),
        floor=Floor(length=read_length("2 m"), width=read_length("2 m")),
        effort=effort,
        steps="Tap.",
        cues=(),
        easier=(),
        harder=(),
        inclusion=Inclusion(),
        safety=(),
    )
    return msgspec.structs.replace(plain, **changes)


def activities() -> tuple[Activity, ...]:
    """Return the activities of the small school, most of them in two or three ways of grouping."""
    tried: dict[str, tuple[How, ...]] = {"T1.3": ("practised",)}
    both: dict[str, tuple[How, ...]] = {"T1.3": ("practised", "assessed"), "T2.3": ("practised",)}
    second: dict[str, tuple[How, ...]] = {"T2.3": ("practised", "assessed")}
    pairs = Organisation(form="pairs")
    paddles = (Need(item="paddle", count=1, per="child"),)
    nets = (Need(item="net", count=1, per="pair"),)
    count = Measured(what="Taps", measure="count", unit="taps")
    calm: tuple[int, int, int, int] = (3, 4, 6, 0)
    return (
        activity("run-and-freeze", "warm-up", minutes=calm, effort="vigorous"),
        activity("shadow-steps", "warm-up", minutes=calm, organisation=pairs),
        activity("line-hops", "warm-up", minutes=calm, effort="vigorous"),
        activity("first-taps", "skill", "practice", step="up", serves=tried, equipment=paddles, measured=count),
        activity("tap-ladder", "skill", "practice", step="up", serves=tried, equipment=paddles),
        activity("floor-taps", "skill", "practice", step="down", serves=both, equipment=paddles),
        activity("tap-trails", "practice", step="down", serves=tried, equipment=paddles, organisation=pairs),
        activity("wall-taps", "skill", "practice", step="wall", serves=both, equipment=paddles, organisation=pairs),
        activity("wall-count", "practice", "game", step="wall", serves=second, equipment=paddles, measured=count),
        activity(
            "over-and-back",
            "practice",
            "game",
            step="net",
            serves=second,
            equipment=paddles + nets,
            organisation=pairs,
            builds_on=("wall-taps",),
        ),
        activity("ring-of-names", "closing", minutes=calm, effort="rest"),
        activity("two-stars", "closing", minutes=calm, effort="rest", organisation=pairs),
        activity("slow-breath", "closing", minutes=calm, effort="light"),
    )


def unit(**changes: Any) -> Unit:
    """Return the request: four lessons of 30 minutes from Tuesday 5 January 2027."""
    plain = Unit(
        kind="unit",
        id="taps",
        title="Taps",
        summary="",
        school="quillfeather",
        classes=("heron",),
        framework=FRAMEWORK,
        start="2027-01-05",
        lessons=4,
        skills=("tapping",),
        aims=(Aim(code="T1.3", practise=2, assess=1, after=1), Aim(code="T2.3", practise=2)),
        shapes=(
            Shape(
                title="Usual lesson",
                parts=(
                    ShapePart(part="warm-up"),
                    ShapePart(part="skill"),
                    ShapePart(part="practice", least=1, most=2),
                    ShapePart(part="closing"),
                ),
            ),
        ),
    )
    return msgspec.structs.replace(plain, **changes)


def school(**changes: Any) -> School:
    """Return the school: a gym, a field, paddles and nets, one class of twelve."""
    plain = School(
        kind="school",
        id="quillfeather",
        title="Quillfeather School",
        time_zone="America/Chicago",
        spaces=(_space("gym", "12 m", "10 m", "indoors"), _space("yard", "30 m", "20 m", "outdoors")),
        equipment=(Owned(item="paddle", count=12), Owned(item="net", count=6)),
        classes=(
            SchoolClass(
                id="heron",
                title="Grade 3 Heron",
                grade="3",
                children=12,
                space="gym",
                meets=(Meeting(day="Tuesday", at="10:15", minutes=30), Meeting(day="Thursday", at="10:15", minutes=30)),
            ),
        ),
        calendar=Calendar(first_day="2026-08-31", last_day="2027-06-11"),
    )
    return msgspec.structs.replace(plain, **changes)


def _space(name: str, length: str, width: str, where: Any) -> Space:
    return Space(
        id=name, title=name.title(), length=read_length(length), width=read_length(width), where=where, surface="wood"
    )


def records() -> tuple[AnyRecord, ...]:
    """Return every record of the small school but its unit and activities."""
    items = (Item(id="paddle", title="paddle", plural="paddles"), Item(id="net", title="net", plural="nets"))
    names = (("up", "Tap up"), ("down", "Tap down"), ("wall", "To a wall"), ("net", "Over a net"))
    steps = tuple(Step(id=step, title=title, means="") for step, title in names)
    codes = (*AIMS, "T3.3", "T1.2")
    return (
        school(),
        Catalogue(kind="equipment", id="equipment", title="Equipment", items=items),
        Skill(kind="skill", id="tapping", title="Tapping", family="manipulative", summary="", steps=steps),
        Framework(
            kind="outcomes",
            id=FRAMEWORK,
            title="Made up",
            publisher="Nobody",
            year=2027,
            standards={"1": "", "2": "", "3": ""},
            spelling=Spelling(pattern="."),
            outcomes=tuple(
                Outcome(code=code, standard=code[1], grade=code[-1], topic="", status="active") for code in codes
            ),
        ),
    )


def library(request: Unit | None = None, own: School | None = None, extra: tuple[Activity, ...] = ()) -> Library:
    """Return the library of the small school, with its request, school or activities of the same id replaced."""
    known = {record.id: record for record in activities()} | {record.id: record for record in extra}
    built = build_library([*records(), *known.values(), request or unit()])
    return replace(built, schools={"quillfeather": own}) if own else built


def with_rolling(found: Library) -> Library:
    """Return a library with a further skill, rolling, that has one step."""
    rolling = Skill(
        kind="skill",
        id="rolling",
        title="Rolling",
        family="manipulative",
        summary="",
        steps=(Step(id="roll", title="Roll", means=""),),
    )
    return replace(found, skills={**found.skills, rolling.id: rolling})
