"""What an author almost surely meant by a value written in another way: a date, a length, a time, an id, a grade band.

Only one reading may be possible; where there are two (1/5/2027), nothing is suggested.
"""

import re
import unicodedata
from collections.abc import Callable
from typing import Final

_UNITS: Final = (
    (r"(?:centimetres|centimeters|centimetre|centimeter|cms)", "cm"),
    (r"(?:metres|meters|metre|meter|mtrs?)", "m"),
    (r"(?:feet|foot|ft\.|['\u2019\u2032])", "ft"),
    (r"(?:inches|inch|in\.|[\"\u201d\u2033])", "in"),
)
_NUMBERS: Final = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"),
)
_MONTHS: Final = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_OPENING: Final = ("\u201c", "\u201e", "\u2018")
_CLOSING: Final = "\u201c\u201d\u2018\u2019"
_DASHES: Final = re.compile("\\s*(?:[-\u2010-\u2015\u2212]|to)\\s*")


def suggestion(form: str, value: str, pattern: str) -> str | None:
    """Return the value as it must be written, or None where what was meant is not nearly sure.

    ``form`` is the sort of value (``x-form`` in the schemas); ``pattern`` must match what is suggested.
    """
    repair = _REPAIRS.get(form)
    meant = repair(_bare(value)) if repair else None
    return meant if meant and meant != value and re.search(pattern, meant) else None


def _bare(value: str) -> str:
    """Return a value without blanks and without the curly quotes that a word processor has put around it."""
    value = value.strip()
    return value[1:].rstrip(_CLOSING).strip() if value[:1] in _OPENING else value


def whole_number(text: str) -> str | None:
    """Return a number that is written in words, or with what it counts behind it, in digits; None for another text."""
    words = text.strip().lower()
    if words in _NUMBERS:
        return str(_NUMBERS.index(words))
    found = re.fullmatch(r"(\d{1,4})\s*(?:[a-z]+\.?|%)", words)
    return str(int(found.group(1))) if found else None


def slug(text: str) -> str:
    """Return a text as an id: small letters without their marks, digits and hyphens."""
    plain = unicodedata.normalize("NFKD", text.lower().replace("\u00df", "ss"))
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter))
    return re.sub("[^a-z0-9]+", "-", plain.replace("'", "").replace("\u2019", "")).strip("-")


def _date(text: str) -> str | None:
    if found := re.fullmatch(r"(20\d\d)\D(\d{1,2})\D(\d{1,2})", text):
        year, month, day = found.groups()
        return f"{year}-{int(month):02}-{int(day):02}"
    if found := re.fullmatch(r"([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (20\d\d)", text.lower()):
        months = [number for number, name in enumerate(_MONTHS, 1) if name.startswith(found[1])]
        return f"{found[3]}-{months[0]:02}-{int(found[2]):02}" if months else None
    return None


def _time(text: str) -> str | None:
    found = re.fullmatch(r"(\d{1,2})[:.h](\d\d)\s*([ap])?\.?(?:m\.?)?", text.lower())
    if not found:
        return None
    hour, minute, half = int(found.group(1)), found.group(2), found.group(3)
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    return f"{hour}:{minute}"


def _length(text: str) -> str:
    for words, unit in _UNITS:
        text = re.sub(rf"\s*{words}", f" {unit} ", text, flags=re.IGNORECASE)
    return re.sub(" +", " ", text.replace(",", ".")).strip()


def _grades(text: str) -> str:
    text = re.sub(r"\bkindergarten\b", "K", re.sub(r"\bgrades?\b", "", text, flags=re.I), flags=re.I)
    text = re.sub(r"(?<=\d)(?:st|nd|rd|th)\b", "", text)
    first, *rest = _DASHES.split(text.strip())
    first = "K" if first == "0" else first
    if len(rest) == 1 and first.isdigit() and rest[0].isdigit() and int(first) > int(rest[0]):
        first, rest = rest[0], [first]
    return "-".join(part.strip() for part in (first, *rest)).upper()


def _country(text: str) -> str:
    return text.upper()


_REPAIRS: Final[dict[str, Callable[[str], str | None]]] = {
    "id": slug,
    "date": _date,
    "time": _time,
    "length": _length,
    "grades": _grades,
    "country": _country,
}
