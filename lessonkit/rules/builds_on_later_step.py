"""An activity builds on one that works on a later step of the same skill.

Children would practice the harder thing before the easier one. Only a skill that both name is compared, by the furthest
step each works on.

Fails:

    skills: [{skill: short-paddle, step: carry}]
    builds_on: [ladder-of-taps]

Passes:

    skills: [{skill: short-paddle, step: wall-rally}]
    builds_on: [ladder-of-taps]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.records.skill import Skill
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK262", "builds-on-later-step", Level.WARNING), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every activity that should come before, but is further along a skill."""
    assert isinstance(record, Activity)
    own = furthest_steps(record, context.library) if record.builds_on else {}
    for number, name in enumerate(record.builds_on):
        earlier = context.library.activities.get(name)
        theirs = furthest_steps(earlier, context.library) if earlier is not None else {}
        for skill_id in sorted(own.keys() & theirs.keys()):
            if earlier is not None and theirs[skill_id] > own[skill_id]:
                skill = context.library.skills[skill_id]
                says = f"{earlier.title} works on {_title(skill, theirs[skill_id])}, a later step than this one's"
                says += f" {_title(skill, own[skill_id])}."
                related = ((earlier, ("skills",), "its steps"),)
                yield Fault(("builds_on", number), says, None, related=related)


def _title(skill: Skill, position: int) -> str:
    return f"\u201c{skill.steps[position - 1].title}\u201d"


def furthest_steps(activity: Activity, library: Library) -> dict[str, int]:
    """Return how far along each skill an activity goes: the position (from 1) of its furthest step."""
    furthest: dict[str, int] = {}
    for place in activity.skills:
        skill = library.skills.get(place.skill)
        if skill is not None and any(step.id == place.step for step in skill.steps):
            furthest[place.skill] = max(furthest.get(place.skill, 0), skill.position(place.step))
    return furthest
