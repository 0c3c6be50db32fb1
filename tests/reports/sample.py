"""A few findings, as rules make them, with everything that can be awkward in a report."""

from lessonkit.loading.codes import CODES as LOADING_CODES
from lessonkit.planning.codes import PLAN_CODES
from lessonkit.rules.registry import RULES
from lessonkit.rules.silence import CODES_OF_SILENCE
from lessonkit.source.finding import Code, Finding, Level, Related
from lessonkit.source.location import Location

CUE = Code("LK251", "cue-too-long", Level.WARNING)
CODE = Code("LK211", "outcome-code-wrong", Level.ERROR)
GAP = Code("LK263", "step-without-activity", Level.ADVICE)
PATHS = ("curriculum/a.yaml", "curriculum/clean, or not.yaml", "curriculum/skills/p\u00e4ddle 100%.yaml")

WARNING = Finding(
    CUE,
    CUE.level,
    "This cue has 17 words; children hear 7 at most.",
    Location(PATHS[0], 7, 5, 7, 9),
    record="a",
    field=("cues", 1),
    hint="Keep the words that help.",
    related=(Related(Location(PATHS[0], 2, 1, 2, 3), "first written here"),),
)
ERROR = Finding(
    CODE, CODE.level, "The code \u201cS1 & <E1>\u201d, 100% wrong:\nno outcome.", Location(PATHS[0], 3, 1, 4, 2)
)
ADVICE = Finding(GAP, GAP.level, "No activity works on \x1b[31m\u00abSpin\u00bb\ufffe.", Location(PATHS[2], 1, 2, 1, 2))
EVERY_CODE = (*(module.RULE.code for module in RULES), *LOADING_CODES, *PLAN_CODES, *CODES_OF_SILENCE)
"""Every kind of finding that there is."""
ONE_OF_EACH = tuple(Finding(code, code.level, "Something.", Location(PATHS[0], 1, 1, 1, 2)) for code in EVERY_CODE)
FINDINGS = (ADVICE, WARNING, ERROR)
"""Out of order on purpose: a report sorts them."""
