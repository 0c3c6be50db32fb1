"""The levels of the unit's skills: which steps are mastered, which are still to learn, and which nothing can teach.

A step is passed over where no activity teaches it to the class, and where those that do could never come: each of them
trains a later step as well, which has to wait for this one, or builds on what has to wait.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lessonkit.logistics.words import listed
from lessonkit.planning.problem import Level
from lessonkit.planning.said import Said
from lessonkit.records.activity import CORE_PARTS, Activity, SkillStep
from lessonkit.records.library import Library
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


@dataclass(frozen=True, slots=True)
class Usable:
    """An activity that a class can use, with the parts it may fill and the activities that must come before it."""

    activity: Activity
    parts: tuple[str, ...]
    bases: tuple[str, ...] = ()


_Step = tuple[str, str]
"""Skill id, step id."""


def progression(unit: Unit, library: Library, usable: Sequence[Usable]) -> Progression:
    """Work out the levels from the activities that a class can use."""
    mastered = mastered_steps(unit, library)
    trained = {_key(step) for each in usable if _teaches(each) for step in each.activity.skills}
    never: set[_Step] = set()
    while True:
        levels, steps = _levels(unit, library, mastered, trained - never)
        stuck = _stuck(unit, levels, steps, usable)
        if stuck is None:
            return Progression(levels, steps, tuple(_passed_over(unit, library, mastered, steps, never)))
        never.add(stuck)


def _key(step: SkillStep) -> _Step:
    return step.skill, step.step


def _teaches(each: Usable) -> bool:
    return bool(set(each.parts) & set(CORE_PARTS))


def _names(library: Library, skill_id: str) -> list[str]:
    skill = library.skills.get(skill_id)
    return [step.id for step in skill.steps] if skill else []


def _levels(
    unit: Unit, library: Library, mastered: frozenset[_Step], taught: set[_Step]
) -> tuple[dict[_Step, Level], tuple[tuple[str, ...], ...]]:
    """Return the level of each step that is mastered or taught, and the steps still to learn by skill."""
    levels: dict[_Step, Level] = {}
    steps: list[tuple[str, ...]] = []
    for number, skill_id in enumerate(unit.skills):
        names = _names(library, skill_id)
        known = [name for name in names if (skill_id, name) in mastered]
        ahead = [name for name in names if name not in known and (skill_id, name) in taught]
        for position, name in enumerate(reversed(known)):
            levels[skill_id, name] = Level(number, -position)
        for position, name in enumerate(ahead, 1):
            levels[skill_id, name] = Level(number, position)
        steps.append(tuple(ahead))
    return levels, tuple(steps)


def _stuck(
    unit: Unit, levels: dict[_Step, Level], steps: tuple[tuple[str, ...], ...], usable: Sequence[Usable]
) -> _Step | None:
    """Return the first step that no activity can ever come to teach, because each waits for what comes after it."""
    own = {
        each.activity.id: {levels[key] for key in map(_key, each.activity.skills) if key in levels} for each in usable
    }
    met: set[Level] = set()
    come: set[str] = set()
    waiting = list(usable)
    while True:
        now = [each for each in waiting if set(each.bases) <= come and not _asked(own[each.activity.id]) - met]
        if not now:
            break
        come |= {each.activity.id for each in now}
        met |= {level for each in now if _teaches(each) for level in own[each.activity.id]}
        waiting = [each for each in waiting if each.activity.id not in come]
    for number, names in enumerate(steps):
        for position, name in enumerate(names, 1):
            if Level(number, position) not in met:
                return unit.skills[number], name
    return None


def _asked(levels: set[Level]) -> set[Level]:
    """Return the levels that have to be met before an activity of some levels: the one before each, if not its own."""
    return {Level(level.skill, level.level - 1) for level in levels if level.level > 1} - levels


def _passed_over(
    unit: Unit,
    library: Library,
    mastered: frozenset[_Step],
    steps: tuple[tuple[str, ...], ...],
    never: set[_Step],
) -> Iterator[Said]:
    for number, (skill_id, ahead) in enumerate(zip(unit.skills, steps, strict=True)):
        names = _names(library, skill_id)
        last = max((names.index(name) for name in ahead), default=-1)
        untaught = [
            name for name in names[: last + 1] if name not in ahead and not {(skill_id, name)} & (mastered | never)
        ]
        stuck = [name for name in names if (skill_id, name) in never]
        for missing, alone in ((untaught, ""), (stuck, " without one that comes after")):
            if missing:
                skill = library.skills[skill_id]
                titles = [f"“{skill.steps[names.index(name)].title}”" for name in missing]
                step = f"the step{'s' if titles[1:] else ''} {listed(titles)} of {skill.title}"
                passed = "they are" if titles[1:] else "it is"
                says = f"No activity that can be used teaches {step}{alone}; {passed} passed over."
                yield Said("unit", unit.id, ("skills", number), says)
