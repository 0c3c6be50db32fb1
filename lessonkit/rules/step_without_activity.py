"""No activity works on a step of a skill, although activities work on steps before and after it.

The sequencer climbs a skill step by step; a step that nothing teaches is a gap in the ladder. Steps before the first
and after the last that is taught are no gaps: children may bring the one along and go on to the other elsewhere.

Fails (in a skill):

    steps:
      - {id: carry, title: Carry, means: Carries a beanbag on the paddle.}
      - {id: roll-round, title: Roll round, means: Lets a ball roll round the rim.}
      - {id: tap-up, title: Tap up, means: Taps a ball up several times.}

Passes:

    steps:
      - {id: carry, title: Carry, means: Carries a beanbag on the paddle.}
      - {id: tap-up, title: Tap up, means: Taps a ball up several times.}
      - {id: roll-round, title: Roll round, means: Lets a ball roll round the rim.}
"""

from collections.abc import Iterator

from lessonkit.records.record import Record
from lessonkit.records.skill import Skill
from lessonkit.rules.activities_of import training
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK263", "step-without-activity", Level.ADVICE), (Skill,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every step that no activity names between two steps that some do."""
    assert isinstance(record, Skill)
    named = {
        place.step
        for activity in training(context.library, record.id)
        for place in activity.skills
        if place.skill == record.id
    }
    taught = [number for number, step in enumerate(record.steps) if step.id in named]
    for number, step in enumerate(record.steps):
        if step.id not in named and taught and taught[0] < number < taught[-1]:
            says = f"No activity works on the step {step.title!r}, but some work on steps before and after it."
            yield Fault(("steps", number, "id"), says)
