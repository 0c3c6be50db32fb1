"""The page of every kind of finding that planning makes about a plan or a year map."""

from typing import Final

from lessonkit.planning import codes
from lessonkit.source.finding import Code

_PAGES: Final[dict[Code, str]] = {
    codes.PLAN_BROKEN: """A plan does not keep to what its unit asks for.

The minutes of a lesson may not add up, an activity may come before what it builds on, equipment or floor may be short
for the class, an aim may not be practiced often enough, or a day may have no lesson. The sequencer never writes such a
plan; a change by hand, or a change of the records since, can make one.

Change the plan at the place named, or plan the unit again with: lessonkit sequence
""",
    codes.PLAN_OUTDATED: """The records that a plan was made from have changed in a way that matters for planning.

The plan may still be good: it is checked against the records as they are now, and what it breaks is named apart. But
another plan may be better now.

Plan the unit again with: lessonkit sequence
""",
    codes.YEAR_BROKEN: """A year map does not keep to the calendar, or to what the year asks for.

Two units of a class may fall into one week, a unit may begin before the one that it follows is over or outside the days
set for it, or its last lesson may not be on the day written.

Change the map at the place named, or map the year again with: lessonkit year
""",
    codes.YEAR_OUTDATED: """The records that a year map was made from have changed: weeks, units, order or wishes.

Map the year again with: lessonkit year
Units that have begun stay in their weeks with: lessonkit year --since 2027-01-18
""",
    codes.YEAR_START: """A unit starts in another week than the year map has it in.

The lessons of a plan are dated from the start of its unit, so they would not be where the overview of the year shows
them. The right date can be written for you with: lessonkit check --fix --write
""",
}


def explain(name: str) -> str | None:
    """Return the page of a kind of finding by its name or number, headed by both; None for one that does not exist."""
    for code, page in _PAGES.items():
        if name.lower() in (code.name, code.number.lower()):
            return f"{code.name} ({code.number}, {code.level.value})\n\n{page}"
    return None
