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
_VOWELS = {letter: "e" if chr(letter) in "aeiouy" else " " for letter in range(ord("a"), ord("z") + 1)}
"""Every vowel as one letter, every other letter as a space, so that the pieces between spaces are groups of vowels."""
_SILENT = (("e", "aeiouyl"), ("ed", "aeiouytd"), ("es", "aeiouysxzc"))
"""Endings whose e is silent, except after some letters."""
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
    word = word.lower()
    if not (word.isascii() and word.isalpha()):
        word = re.sub(r"[^a-z]", "", word)
    groups = len(word.translate(_VOWELS).split())
    return max(1, groups - (1 if groups > 1 and _ends_silently(word) else 0))


def _ends_silently(word: str) -> bool:
    """Tell whether the e in ``-e``, ``-ed`` or ``-es`` at the end of a word is not said."""
    for ending, said_after in _SILENT:
        if word.endswith(ending):
            before = word[-len(ending) - 1 : -len(ending)]
            return before != "" and before not in said_after
    return False
