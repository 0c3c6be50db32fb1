"""What a class is short of, and what it uses instead, in words."""

from collections.abc import Iterable

from lessonkit.document.lesson_facts import LessonFacts, PlanFacts
from lessonkit.document.pieces import NO_BREAK
from lessonkit.logistics.equipment import Counts, Shortage, shortages
from lessonkit.logistics.equipment_day import item_counted
from lessonkit.logistics.words import listed, opened


def too_few(facts: PlanFacts, needs: Counts, grade: str | None) -> dict[str, Shortage]:
    """Return what is short of needs that are used at one time, by item; what is not for a ``grade`` helps nobody."""
    return {short.item: short for short in shortages(needs, facts.school, facts.library.items, grade)}


def to_fetch(facts: PlanFacts, lesson: LessonFacts) -> dict[str, str]:
    """Say by item how many a lesson needs, and what stands in for those that the school lacks."""
    short = too_few(facts, dict(lesson.equipment), facts.school_class.grade)
    lacking = {item: f" ({short_says(facts, each)})" for item, each in short.items()}
    return {
        item: f"{count}{NO_BREAK}{facts.item_name(item, count)}{lacking.get(item, '')}"
        for item, count in lesson.equipment
    }


def short_says(facts: PlanFacts, short: Shortage) -> str:
    """Say how many are missing and what is used instead: ``2 short: use 2 hoops``, without a full stop."""
    return f"{short.needed - short.owned} short: {_instead(facts, short)}"


def day_short_says(facts: PlanFacts, title: str, found: Iterable[Shortage]) -> str | None:
    """Say in one sentence what a class is short of, with what it uses instead; None for nothing."""
    parts = [
        f"{item_counted(each.item, each.needed - each.owned, facts.library.items)} short, {_instead(facts, each)}"
        for each in found
    ]
    return f"{opened(title)}: {'; '.join(parts)}." if parts else None


def _instead(facts: PlanFacts, short: Shortage) -> str:
    """Say which items stand in, what to use that is no equipment, or how many are missing all the same."""
    items = facts.library.items
    stand_ins = listed([item_counted(other, count, items) for other, count in short.stand_ins])
    improvised = " or ".join(short.improvise)
    if not stand_ins:
        return f"use {improvised}" if improvised else "nothing known stands in"
    if not short.still_short:
        return f"use {stand_ins}"
    left = short.still_short
    return f"use {stand_ins}, for the other {left} {improvised}" if improvised else f"use {stand_ins}, {left} missing"
