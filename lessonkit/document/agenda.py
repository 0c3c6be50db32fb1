"""When and where a plan's lessons are, for calendars."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from lessonkit.document.lesson_facts import LessonFacts, PlanFacts


@dataclass(frozen=True, slots=True)
class Event:
    """A lesson in a calendar: local start and end, where, and what to bring. ``uid`` never changes for a lesson."""

    uid: str
    start: datetime
    end: datetime
    title: str
    where: str
    says: str


@dataclass(frozen=True, slots=True)
class Agenda:
    """The lessons of a plan as events in a time zone (an IANA name). ``made`` stamps every event."""

    title: str
    time_zone: str
    made: datetime
    events: tuple[Event, ...]


def agenda(facts: PlanFacts) -> Agenda:
    """Return the agenda of a plan, stamped with the first lesson's day, so that equal plans give equal files."""
    first = datetime.fromisoformat(facts.lessons[0].lesson.date)
    return Agenda(
        title=facts.plan.title,
        time_zone=facts.school.time_zone,
        made=first,
        events=tuple(_event(facts, lesson) for lesson in facts.lessons),
    )


def _event(facts: PlanFacts, lesson: LessonFacts) -> Event:
    plan = lesson.lesson
    hour, minute = plan.at.split(":")
    start = datetime.fromisoformat(plan.date).replace(hour=int(hour), minute=int(minute))
    items = ", ".join(f"{count} {facts.item_name(item, count)}" for item, count in lesson.equipment)
    parts = "\n".join(f"{slot.starts}-{slot.ends} {slot.activity.title}" for slot in lesson.slots)
    return Event(
        uid=f"{facts.unit.id}.{facts.school_class.id}.lesson-{plan.lesson}@{facts.school.id}.lessonkit",
        start=start,
        end=start + timedelta(minutes=plan.minutes),
        title=f"{facts.school_class.title}: lesson {plan.lesson}, {lesson.title[0].lower()}{lesson.title[1:]}",
        where=lesson.space.title,
        says=f"{facts.unit.title}\n{parts}\nEquipment: {items or 'none'}",
    )
