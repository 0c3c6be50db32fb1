"""Lengths as a school says them, in metres or in feet, whichever way their author wrote them."""

from typing import Final, Literal

from lessonkit.records.measures import Length

Lengths = Literal["metres", "feet"]
NO_BREAK: Final = "\u00a0"
_FOOT: Final = 0.3048
"""Metres in a foot, exactly (international foot, 1959)."""
_INCHES: Final = 12
_CENTIMETRES_BELOW: Final = 1.0


def say_length(length: Length, lengths: Lengths) -> str:
    """Return a length in a school's own lengths; the author's words stay where they are in these already."""
    is_in_feet = any(unit in length.written for unit in ("ft", "in"))
    if is_in_feet == (lengths == "feet"):
        return length.written.replace(" ", NO_BREAK) if " " in length.written else _spaced(length.written)
    return in_feet(length.metres) if lengths == "feet" else in_metres(length.metres)


def in_metres(metres: float) -> str:
    """Return a length rounded to the centimetre: ``6 m``, ``1.68 m``, ``60 cm``."""
    centimetres = round(metres * 100)
    if centimetres < 100 * _CENTIMETRES_BELOW:
        return f"{centimetres}{NO_BREAK}cm"
    return f"{centimetres / 100:.2f}".rstrip("0").rstrip(".") + f"{NO_BREAK}m"


def in_feet(metres: float) -> str:
    """Return a length rounded to the inch: ``19 ft 8 in``; below a foot to a tenth of an inch: ``2.8 in``."""
    inches = round(metres / _FOOT * _INCHES, 1)
    if inches < _INCHES:
        return f"{inches:g}{NO_BREAK}in"
    feet, over = divmod(round(metres / _FOOT * _INCHES), _INCHES)
    return f"{feet}{NO_BREAK}ft" + (f"{NO_BREAK}{over}{NO_BREAK}in" if over else "")


def say_area(length: Length, width: Length, lengths: Lengths) -> str:
    """Return an area as its two sides: ``6 m by 3 m``."""
    return f"{say_length(length, lengths)} by {say_length(width, lengths)}"


def _spaced(written: str) -> str:
    """Put a space that does not break between a number and its unit, written without one."""
    place = next((place for place, letter in enumerate(written) if letter.isalpha()), len(written))
    return f"{written[:place]}{NO_BREAK}{written[place:]}"
