"""What an author almost surely meant by a value written in another way."""

import pytest

from lessonkit.loading.shape import schema_of
from lessonkit.loading.suggest import slug, suggestion

PATTERNS = {
    "id": schema_of("unit")["properties"]["id"]["pattern"],
    "date": schema_of("unit")["properties"]["start"]["pattern"],
    "time": schema_of("school")["$defs"]["Meeting"]["properties"]["at"]["pattern"],
    "grades": schema_of("activity")["properties"]["grades"]["pattern"],
    "length": schema_of("activity")["$defs"]["Floor"]["properties"]["safety"]["pattern"],
    "country": schema_of("school")["$defs"]["Holidays"]["properties"]["country"]["pattern"],
}


@pytest.mark.parametrize(
    ("form", "written", "meant"),
    [
        ("id", "Ladder of Taps", "ladder-of-taps"),
        ("id", "ladder_of_taps", "ladder-of-taps"),
        ("id", "--Don't drop--", "dont-drop"),
        ("id", "???", None),
        ("id", "U\u0308ber die Br\u00fccke", "uber-die-brucke"),
        ("date", "2027/1/5", "2027-01-05"),
        ("date", "2027.01.05", "2027-01-05"),
        ("date", "2027-13-05", None),
        ("date", "2027-2-29", None),
        ("date", "5.1.2027", None),
        ("date", "January 5", None),
        ("date", "January 5, 2027", "2027-01-05"),
        ("date", "Sept. 1st 2027", "2027-09-01"),
        ("date", "Feb 30, 2027", None),
        ("date", "Jaguary 5, 2027", None),
        ("date", "\u201c2027-01-05\u201d", "2027-01-05"),
        ("grades", "\u20182\u20134\u2019", "2-4"),
        ("time", "9.05", "9:05"),
        ("time", "9h05", "9:05"),
        ("time", "9:05 AM", "9:05"),
        ("time", "12:10 a.m.", "0:10"),
        ("time", "12:10 pm", "12:10"),
        ("time", "1:30 p", "13:30"),
        ("time", "25:10", None),
        ("time", "after lunch", None),
        ("grades", "k to 2", "K-2"),
        ("grades", "Kindergarten", "K"),
        ("grades", "kindergarten - grade 2", "K-2"),
        ("grades", "3rd to 5th", "3-5"),
        ("grades", "3 — 5", "3-5"),
        ("grades", "5-3", "3-5"),
        ("grades", "3-6", None),
        ("grades", "all", None),
        ("length", "6 metres", "6 m"),
        ("length", "6 meter", "6 m"),
        ("length", "20 Feet", "20 ft"),
        ("length", "20'", "20 ft"),
        ("length", "5' 6\"", "5 ft 6 in"),
        ("length", "5\u20196\u201d", "5 ft 6 in"),
        ("length", "1,5 m", "1.5 m"),
        ("length", "60 centimetres", "60 cm"),
        ("length", "two metres", None),
        ("country", "us", "US"),
        ("country", "USA", None),
        ("word", "anything", None),
    ],
)
def test_value_is_understood(form: str, written: str, meant: str | None) -> None:
    """A suggestion always passes the field's own pattern; where more than one reading is possible there is none."""
    assert meant == suggestion(form, written, PATTERNS.get(form, ""))


def test_ids_are_made_of_titles() -> None:
    """An id has small letters, digits and single hyphens."""
    assert "four-windows-2" == slug("  Four  Windows (2)! ")
