"""The levels of the unit's skills: which steps are mastered, which are still to learn, and which nothing can teach."""

from collections.abc import Iterable
from dataclasses import dataclass

from lessonkit.planning.problem import Level
from lessonkit.planning.said import Said
from lessonkit.records.activity import CORE_PARTS, Activity
from lessonkit.records.library import Library
from lessonkit.records.skill import Skill
from lessonkit.records.unit import Unit


@dataclass(frozen=True, slots=True)
class Progression:
    """The levels of every skill of a unit.

    ``levels`` maps (skill id, step id) to a level: 1 and up for steps still to learn, 0 and down for mastered ones.
    ``steps`` names the steps still to learn by skill, level 1 first. ``passed_over`` are sentences on steps that no
    activity teaches.
    """

    levels: dict[tuple[str, str], Level]
    steps: tuple[tuple[str, ...], ...]
    passed_over: tuple[Said, ...]

    def of(self, activity: Activity) -> tuple[Level, ...]:
        """Return the levels that an activity trains."""
        keys = ((step.skill, step.step) for step in activity.skills)
        return tuple(self.levels[key] for key in keys if key in self.levels)


def mastered_steps(unit: Unit, library: Library) -> frozenset[tuple[str, str]]:
    """Return the steps that a class brings along: those named in the request and every step before them."""
    found: set[tuple[str, str]] = set()
    for known in unit.mastered:
        skill = library.skills.get(known.skill)
        names = [step.id for step in skill.steps] if skill else []
        if known.step in names:
            found |= {(known.skill, name) for name in names[: names.index(known.step) + 1]}
    return frozenset(found)


def progression(unit: Unit, library: Library, usable: Iterable[tuple[Activity, tuple[str, ...]]]) -> Progression:
    """Work out the levels from the activities that a class can use, each with the parts it may fill."""
    taught = {
        (step.skill, step.step)
        for activity, parts in usable
        if set(parts) & set(CORE_PARTS)
        for step in activity.skills
    }
    mastered = mastered_steps(unit, library)
    levels: dict[tuple[str, str], Level] = {}
    steps: list[tuple[str, ...]] = []
    passed_over: list[Said] = []
    for number, skill_id in enumerate(unit.skills):
        skill = library.skills.get(skill_id)
        names = [step.id for step in skill.steps] if skill else []
        known = [name for name in names if (skill_id, name) in mastered]
        ahead = [name for name in names if name not in known and (skill_id, name) in taught]
        for position, name in enumerate(reversed(known)):
            levels[skill_id, name] = Level(number, -position)
        for position, name in enumerate(ahead, 1):
            levels[skill_id, name] = Level(number, position)
        steps.append(tuple(ahead))
        if skill is not None:
            passed_over += _passed_over(unit, number, skill, known, ahead)
    return Progression(levels, tuple(steps), tuple(passed_over))


def _passed_over(unit: Unit, number: int, skill: Skill, known: list[str], ahead: list[str]) -> list[Said]:
    names = [step.id for step in skill.steps]
    last = max((names.index(name) for name in ahead), default=-1)
    missing = [step.title for step in skill.steps[:last] if step.id not in known and step.id not in ahead]
    return [
        Said(
            "unit",
            unit.id,
            ("skills", number),
            f"No activity teaches the step “{title}” of {skill.title}; it is passed over.",
        )
        for title in missing
    ]
