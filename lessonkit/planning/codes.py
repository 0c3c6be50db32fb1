"""The kinds of finding that planning makes about a plan's file."""

from typing import Final

from lessonkit.source.finding import Code, Level

PLAN_BROKEN: Final = Code("LK301", "plan-broken", Level.ERROR)
PLAN_OUTDATED: Final = Code("LK302", "plan-outdated", Level.WARNING)
