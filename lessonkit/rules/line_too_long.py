"""More than three children wait for one who moves.

In a long line a child gets few turns and long pauses; three waiting is the most that common practice accepts (common
practice, no source).

Fails:

    organisation:
      form: squads
      squad: {least: 4, most: 6}
      at_once: 1
      waiting: The others count the hits aloud.
      turn_seconds: 20

Passes:

    organisation:
      form: squads
      squad: {least: 4, most: 6}
      at_once: 2
      waiting: The others count the hits aloud.
      turn_seconds: 20
"""

from collections.abc import Iterator

from lessonkit.logistics.longest_line import LONGEST_LINE
from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.group_size import group_size, waiting
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK234", "line-too-long", Level.WARNING), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault where the children waiting are more than three times those who move."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "organisation"):
        moving, still = taught.activity.organisation.at_once, waiting(taught.activity.organisation)
        if moving is None or not still:
            continue
        if still > LONGEST_LINE * moving:
            others = "1 moves" if moving == 1 else f"{moving} move"
            yield Fault(
                (*taught.place("organisation"), "at_once"),
                f"{still} children wait while {others}; {LONGEST_LINE * moving} are the most.",
                _cures(taught.activity, context.library),
            )


def _cures(activity: Activity, library: Library) -> str:
    """Say what shortens the line and at what cost, for the largest class of its grades, or for one full group."""
    from lessonkit.logistics.line_advice import line_advice

    classes = [
        school_class.children
        for school in library.schools.values()
        for school_class in school.classes
        if any(grade in activity.grades for grade in school_class.grades)
    ]
    size = group_size(activity.organisation) or 1
    for children in (max(classes, default=size), size):
        cures = line_advice(activity, children, library.items)
        if cures:
            return f"For {children} children: {'; or '.join(cure.brief for cure in (*cures[1:], cures[0]))}."
    return "Make smaller groups, let more move at once, or give the others something to do that moves them."
