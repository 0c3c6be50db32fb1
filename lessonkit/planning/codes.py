"""The kinds of finding that planning makes about plans and year maps."""

from typing import Final

from lessonkit.source.finding import Code, Level

PLAN_BROKEN: Final = Code("LK301", "plan-broken", Level.ERROR)
PLAN_OUTDATED: Final = Code("LK302", "plan-outdated", Level.WARNING)
YEAR_BROKEN: Final = Code("LK303", "year-broken", Level.ERROR)
YEAR_OUTDATED: Final = Code("LK304", "year-outdated", Level.WARNING)
YEAR_START: Final = Code("LK305", "year-start", Level.WARNING)
PLAN_CODES: Final = (PLAN_BROKEN, PLAN_OUTDATED, YEAR_BROKEN, YEAR_OUTDATED, YEAR_START)
