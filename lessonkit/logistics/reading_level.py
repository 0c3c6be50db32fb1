"""How hard a text is to read, by a published formula.

Flesch-Kincaid grade level: J. P. Kincaid, R. P. Fishburne, R. L. Rogers and B. S. Chissom, Derivation of New
Readability Formulas for Navy Enlisted Personnel, Research Branch Report 8-75, 1975:
0.39 (words / sentences) + 11.8 (syllables / words) - 15.59.
"""

import re
from collections.abc import Sequence
from functools import lru_cache

from lessonkit.source.pattern import Pattern

_WORD = re.compile(r"[A-Za-z]+(?:['\u2019-][A-Za-z]+)*")
_SENTENCE_END = Pattern(r"[.!?:]+[\"\u201d)*]*(?=\s|$)")


def grade_level(sentences: Sequence[str]) -> float:
    """Return the school grade (K is 0) whose readers understand a text, given as sentences with some words in them."""
    words = _WORD.findall("\n".join(sentences))
    return grade(len(words), len(sentences), sum(map(syllables, words)))


def grade(words: int, sentences: int, syllables_: int) -> float:
    """Return the grade for the three counts, of which words and sentences are 1 or more."""
    return 0.39 * words / sentences + 11.8 * syllables_ / words - 15.59


def sentences_of(paragraph: str) -> list[str]:
    """Return the sentences of a paragraph."""
    ends = [found.end() for found in _SENTENCE_END.finditer(paragraph)]
    pieces = [paragraph[start:end].strip() for start, end in zip([0, *ends], [*ends, len(paragraph)], strict=True)]
    return [piece for piece in pieces if _WORD.search(piece)]


@lru_cache(maxsize=20_000)
def syllables(word: str) -> int:
    """Count the syllables of an English word: its groups of vowels, a silent e at its end not counted."""
    word = re.sub(r"[^a-z]", "", word.lower())
    silent = re.search(r"(?:[^aeiouyl]e|[^aeiouytd]ed|[^aeiouysxzc]es)$", word)
    groups = len(re.findall(r"[aeiouy]+", word))
    return max(1, groups - (1 if silent and groups > 1 else 0))
