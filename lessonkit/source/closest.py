"""The nearest known word to a misspelt one."""

from collections.abc import Iterable
from difflib import get_close_matches


def closest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that was almost surely meant, or None when no candidate is near enough."""
    matches = get_close_matches(word.lower(), sorted(known), n=1, cutoff=0.75)
    return matches[0] if matches else None
