"""A line of a list whose dash is lost, stuck to its words, or another sign: one sentence, whatever found it."""

from typing import Final

NO_DASH: Final = "This line of a list does not begin with a dash and a space."
_OTHERS: Final = "\u2022\u2023\u25aa\u25cf\u00b7\u2013\u2014\u2212*+"
"""Signs that word processors write for a dash."""


def way_to_dash(words: str, otherwise: str) -> str:
    """Return the hint for a line of a list, from its first sign on; ``otherwise`` where that says nothing."""
    sign = words[:1]
    if sign == "-":
        return "Put a space after the dash."
    return f"Type a plain dash (-) and a space in place of {sign}" if sign and sign in _OTHERS else otherwise
