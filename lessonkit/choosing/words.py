"""The words of activities, by which they are looked for: which record has one, and which are near one that none has."""

import re
from collections.abc import Iterator
from difflib import get_close_matches
from typing import Final

from lessonkit.records.activity import Activity
from lessonkit.records.library import Library

IN_TITLE: Final = 6
IN_SUMMARY: Final = 3
IN_STEPS: Final = 1
"""What a word is worth by where it stands."""
_NEAR: Final = 3
"""Near words that are named."""
_WORD: Final = re.compile(r"[^\W\d_]{3,}")


def fields_of(activity: Activity, library: Library) -> tuple[tuple[int, str], ...]:
    """Return what of an activity is searched for words, with what a word there is worth."""
    skills = " ".join(library.skills[step.skill].title for step in activity.skills if step.skill in library.skills)
    items = " ".join(library.items[need.item].plural for need in activity.equipment if need.item in library.items)
    return (
        (IN_TITLE, activity.title),
        (IN_SUMMARY, f"{activity.summary} {skills} {items}"),
        (IN_STEPS, f"{activity.steps} {' '.join(activity.cues)} {' '.join(activity.easier + activity.harder)}"),
    )


def holds(text: str, word: str) -> bool:
    """Tell whether a word of a text begins like the one looked for, endings of the plural aside."""
    stem = word.lower()
    stem = stem[:-1] if len(stem) > 3 and stem.endswith("s") else stem
    return re.search(rf"\b{re.escape(stem)}", text.lower()) is not None


def words_nowhere(words: tuple[str, ...], library: Library) -> tuple[str, ...]:
    """Return those of some words that no activity of a library has."""
    texts = list(_texts(library)) if words else []
    return tuple(word for word in words if not any(holds(text, word) for text in texts))


def near_words(word: str, library: Library) -> tuple[str, ...]:
    """Return the words of a library's activities that are nearest to one, the nearest first; none if none is."""
    known = {found.lower() for text in _texts(library) for found in _WORD.findall(text)}
    return tuple(get_close_matches(word.lower(), sorted(known), _NEAR, 0.75))


def _texts(library: Library) -> Iterator[str]:
    for key in sorted(library.activities):
        for _, text in fields_of(library.activities[key], library):
            yield text
