"""Reading from steps whether they put children out of an activity, and whether they bring them back.

The words are common practice of the trade, no source. A ball that is out, arms that are out, a child that is out of
breath and a sentence that says nobody is out are no fault.
"""

import re
from collections.abc import Iterator
from typing import Final

from lessonkit.source.pattern import Pattern

_PERSON: Final = (
    r"(?:you|they|he|she|child|children|\w*players?|pairs?|teams?|groups?|squads?|runners?|taggers?|throwers?|catchers?"
    r"|kickers?|hitters?|jumpers?|dodgers?|partners?|tagged|caught|hit|frozen)"
)
_WHO: Final = r"(?:who|whoever|anyone|anybody|everyone|everybody|someone|somebody|those|ones?)"
_FAILS: Final = r"(?:tagged|caught|hit|miss(?:es|ed)?|drop(?:s|ped)?|slowest|last|los(?:es?|ing)|falls?|fails?)"
_IS_OUT: Final = (
    r"(?:\s+(?:is|are)(?:\s+(?:then|also|now|all|both))?|['\u2019](?:re|s))\s+out\b(?!-)"
    r"(?!\s+of\b(?!\s+(?:the\s+)?(?:game|play|round)\b))(?!\s+(?:in|by|to|from|there)\b)"
    r"(?!\s+(?:at|on)\b(?!\s+(?:(?:a|the)\s+)?(?:first|second|third|miss|drop|touch|once)))"
)
_SITS: Final = (
    r"(?:sits?|goes|go|moves?|walks?)\s+(?:down\s+|off\s+|back\s+)?"
    r"(?:and\s+watch(?:es)?|(?:on|at|to)\s+the\s+(?:bench|side(?:lines?)?|bleachers|stands|stage))\b"
)
_PUTS_OUT: Final = (
    rf"\beliminat(?:es?|ing)\s+(?:(?:the|a|your|other|one|two|each|slowest|losing)\s+)*(?:{_PERSON}|{_WHO}|others?)\b",
    r"\b(?:is|are|be|gets?|been|being)\s+eliminated\b|\belimination\b",
    r"\bknock(?:s|ed)?\s+(?:(?:the|other|a|each|all|them|you|players?|children|child|others)\s+)*out\b(?!\s+of\b)",
    r"(?<!\bmay )(?<!\bcan )\bsit(?:s|ting)?\s+out\b(?!\s+(?:a|one)\s+turn)",
    r"\blast\s+(?:one|child|player|pair|team|two|three)\s+"
    r"(?:standing|left(?!\s+(?:the|an?|their|his|her|its|your|in|on|from)\b)|in\s+(?:play|the\s+game)|in(?!\s+\w))\b",
    r"\buntil\s+(?:there\s+is\s+)?only\s+(?:one|two)\b[^.;:,]*?\b(?:left|remains?|standing)\b",
    r"\buntil\s+(?:one|two)\s+(?:child|children|players?|pairs?|teams?)\s+(?:is|are|remains?)\s*left\b",
    r"\bputs?\s+(?:you|them|(?:a|the|that)\s+(?:player|child|runner))\s+out\b|\bout\s+(?:you|they)\s+go\b",
    rf"\b{_PERSON}\s+(?:drops?\s+out|leaves?\s+the\s+(?:game|court|floor|field|round))\b",
)
"""What puts children out, in words that need no more of the sentence."""
_OUT: Final = Pattern("|".join(_PUTS_OUT), re.IGNORECASE)
_AT_LAST: Final = (
    (Pattern(_IS_OUT, re.IGNORECASE), Pattern(rf"\b(?:{_PERSON}|{_WHO})\b(?!.*\bout\b)", re.IGNORECASE)),
    (Pattern(_SITS, re.IGNORECASE), Pattern(rf"\b{_FAILS}\b", re.IGNORECASE)),
)
"""Ends of clauses that put children out where somebody, or some failing, stands before them."""
_THING_IS_OUT: Final = Pattern(
    r"(?:\b(?:that|when|if|once|until|whether|while|as|where|and|so)|,)\s+(?:the|a|your|their|his|her|its|both|all)\s+"
    rf"(?:(?!{_PERSON}\b)[\w-]+\s+){{0,2}}?(?!{_PERSON}\b)[\w-]+{_IS_OUT}$",
    re.IGNORECASE,
)
_NOBODY: Final = Pattern(
    r"\b(?:nobody|no\s+one|none|neither|no\s+(?:child|player|pair|team|group|\w+er))\b[^,;:]*$", re.IGNORECASE
)
_NOT: Final = Pattern(
    r"(?:\b(?:not|never|no|without|instead\s+of|rather\s+than|nor)|n['\u2019]t)"
    r"(?:\s+(?:an?|any|be|been|being|ever|have\s+to|need\s+to|has|must|just|play|there|is|are|the))*\s*$",
    re.IGNORECASE,
)
_BRINGS_BACK: Final = (
    r"\bcomes?\s+(?:\w+\s+)?(?:back|in)\b",
    r"\b(?:goes|go|gets?|is|are|jumps?|walks?|runs?|hops?|skips?|jogs?|steps?)\s+(?:straight\s+|right\s+)?back\b"
    r"(?!\s+(?:to|on|onto|behind|over)\b(?!\s+(?:(?:the|their|your|a)\s+)?(?:game|play|court|field|hall|circle|ring|"
    r"start|team|spot|place|hoop|home|line|middle|floor|end)\b(?!\s+and\s+(?:watch|stay|wait))))",
    r"\bback\s+in(?:to)?\b(?!\s+(?:the|a|its|their|your)\s+(?:box|bag|bin|basket|crate|cupboard|line)\b)",
    r"\brejoins?\b|\bre-?enters?\b|\breturns?\b(?!\s+(?:the|your|their|a|it|them|all|to\s+the\s+(?:bench|side|wall))\b)",
    r"(?<!\bothers )(?<!\brest )(?<!\belse )\bplays?\s+on\b|\bjoins?\s+(?:in|the\s+game|another|the\s+other|them)\b",
    r"\b(?:changes?|swaps?|trades?|switch(?:es)?)\s+(?:in(?:to)?|places?|roles?|with|over|sides?|jobs?)\b",
    r"\b(?:begins?|starts?|tr(?:y|ies)|plays?|in)\s+(?:over\s+)?again\b",
    r"\bfree(?:s|d)?\b|\brescu(?:es?|ed)\b|\breleas(?:es?|ed)\b|\bunfr(?:eezes?|ozen)\b",
    r"\bbecomes?\b(?!\s+(?:an?\s+|the\s+)?(?:counter|scorer|watcher|judge|fan|spectator))",
    r"\bout\s+for\s+(?:\w+\s+)?[\w-]+\s+(?:turns?|seconds?|counts?|breaths?|throws?|jumps?)\b|\bout\s+(?:for\s+)?a\s+turn\b",
    r"\bout\s+(?:only\s+)?until\s+(?!the\s+(?:end|game|next\s+game|whistle)\b|only\b|one\b|every)",
)
_BACK: Final = Pattern("|".join(_BRINGS_BACK), re.IGNORECASE)
_CLAUSE: Final = Pattern(
    r",\s*(?=(?:and|but|or|so)\s+(?:who|if|you|any|those)\b)|\s(?=(?:and|or)\s+(?:whoever|you)\b)", re.IGNORECASE
)
_SENTENCE: Final = Pattern(r"(?<=[.!?;:])\s+|\n\s*\n|\n(?=\s*(?:\d+[.)]|[-*])\s)")
_SIGNS: Final = {
    " out": (
        "is out",
        "'s out",
        "\u2019s out",
        "re out",
        "sit out",
        "sits out",
        "sitting out",
        "drop out",
        "drops out",
    ),
    "out ": ("out you go", "out they go"),
    "last ": ("last one", "last child", "last player", "last pair", "last team", "last two", "last three"),
    "until ": ("until only", "until one", "until two"),
    " the ": ("leaves the ", "leave the ", "the bench", "the stage", "the stands", "the bleachers"),
    " side": ("to the side", "at the side", "on the side"),
} | {sign: (sign,) for sign in ("eliminat", "knock", "puts ", "and watch")}
"""What stands in every clause that puts children out, under what is quicker to look for."""


def put_out(steps: str) -> str | None:
    """Return the first words of steps that put a child out of the activity, None where none do."""
    signs = _signs_in(" ".join(steps.split()))
    if not signs:
        return None
    sentences = (" ".join(sentence.split()) for sentence in _SENTENCE.split(steps))
    signed = (sentence for sentence in sentences if any(sign in sentence.lower() for sign in signs))
    clauses = (clause for sentence in signed for clause in _CLAUSE.split(sentence))
    return next((found for clause in clauses if (found := _in_clause(clause))), None)


def _signs_in(words: str) -> list[str]:
    lower = words.lower()
    return [sign for root, signs in _SIGNS.items() if root in lower for sign in signs if sign in lower]


def _in_clause(clause: str) -> str | None:
    for start, end in sorted(_found(clause)):
        before = clause[:start]
        if not (_NOT.search(before) or _NOBODY.search(before) or _THING_IS_OUT.search(clause[:end])):
            return clause[start:end]
    return None


def _found(clause: str) -> Iterator[tuple[int, int]]:
    for found in _OUT.finditer(clause):
        yield found.span()
    for ending, beginning in _AT_LAST:
        for found in ending.finditer(clause):
            somebody = beginning.search(clause[: found.start()])
            if somebody is not None:
                yield somebody.start(), found.end()


def brought_back(steps: str) -> bool:
    """Tell whether steps say how a child that is out comes back."""
    return _BACK.search(steps) is not None
