"""Plain words of YAML 1.2, and files made to grow when they are read."""

import math
from typing import Any

import pytest

from lessonkit.loading.fault import FileFaultError
from lessonkit.loading.file import load_text
from lessonkit.loading.nodes import PARSER, PURE_PARSER, Parser, compose
from lessonkit.loading.values import Reader

READERS = pytest.mark.parametrize("parser", [PARSER, PURE_PARSER], ids=["fast", "plain"])


def _value(text: str, parser: Parser = PARSER) -> Any:
    reader = Reader("v.yaml")
    value = reader.value(compose(text, "v.yaml", parser))
    assert [] == reader.findings
    return value


@READERS
@pytest.mark.parametrize(
    ("written", "meant"),
    [
        # YAML 1.2.2, section 10.3.2 (core schema), but for the last five, which loading keeps as words
        *[(word, None) for word in ("null", "Null", "NULL", "~", "")],
        *[(word, True) for word in ("true", "True", "TRUE")],
        *[(word, False) for word in ("false", "False", "FALSE")],
        *[(word, word) for word in ("no", "No", "yes", "on", "off", "y", "n", "nULL", "tRue")],
        *[(word, word) for word in ("1:30", "10:15", "2026-01-05", "3-5", "K-2", "1_000", "1,5", "0b1", "0o8", "0xg")],
        *[("12", 12), ("-19", -19), ("+3", 3), ("0", 0), ("-0", 0), ("0o14", 12), ("0xC", 12)],
        *[("1.5", 1.5), ("-2E+05", -200000), ("1e3", 1000), (".5", 0.5), ("5.", 5), ("450.00", 450)],
        *[(word, word) for word in (".inf", "-.Inf", ".nan", "1e999", "9" * 301)],
        ("'12'", "12"),
        ('"true"', "true"),
        ("9" * 300, int("9" * 300)),
    ],
)
def test_plain_words_mean_what_yaml_says(written: str, meant: Any, parser: Parser) -> None:
    """A word without quotes is what the core schema of YAML 1.2 makes of it; times, days and ``no`` are words."""
    value = _value(f"a: {written}\n", parser)

    assert {"a": meant} == value
    assert type(meant) is type(value["a"])


def test_whole_decimals_are_whole_numbers() -> None:
    """``5.0`` is the whole number 5 (JSON Schema, validation 6.1.1), and a minute more than 4 may be written so."""
    assert [5, 2**53] == _value("[5.0, 9007199254740992.0]")
    assert [int, int, float] == [type(value) for value in _value("[5.0, 9007199254740992.0, 9007199254740994.0]")]
    assert math.isclose(1e300, _value("1e300"))


@READERS
def test_names_of_fields_are_always_words(parser: Parser) -> None:
    """A name stays as it is written, whatever it would mean as a value."""
    assert {"1": "a", "no": "b", "1.10": "c", "null": "d"} == _value("1: a\nno: b\n1.10: c\nnull: d\n", parser)


@READERS
def test_copies_are_taken_within_bounds(parser: Parser) -> None:
    """An anchor may be copied; 1000 values may come from copies, no more."""
    hundred = "a: &a [" + "1, " * 98 + "1]\n"

    assert {"a": [1, 2], "b": [1, 2]} == _value("a: &a [1, 2]\nb: *a\n", parser)
    assert 10 == len(_value(hundred + "b: [" + "*a, " * 9 + "*a]\n", parser)["b"])
    with pytest.raises(FileFaultError, match="far larger than it looks"):
        _value(hundred + "b: [" + "*a, " * 10 + "*a]\n", parser)


def test_fault_inside_a_copy_is_said_once() -> None:
    """A field written twice in a text that is copied is one fault, however often it is copied."""
    text = "kind: skill\nid: a\ntitle: b\nsteps:\n  - &s {id: c, id: d}\n  - *s\n  - *s\n"
    found = [finding.code.name for finding in load_text(text, "v.yaml").findings]

    assert 1 == found.count("duplicate-field")


@READERS
def test_bomb_of_copies_is_refused(parser: Parser) -> None:
    """Nine copies of nine copies, nine times over, are refused at once, where the limit is passed."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 9)]

    with pytest.raises(FileFaultError) as fault:
        _value("\n".join(lines), parser)
    assert "too-many-copies" == fault.value.finding.code.name


@READERS
def test_copy_inside_itself_is_refused(parser: Parser) -> None:
    """A list that holds itself is refused at its start."""
    with pytest.raises(FileFaultError) as fault:
        _value("a: &a [1, *a]\n", parser)

    assert ("too-many-copies", 4) == (fault.value.finding.code.name, fault.value.finding.location.column)


@READERS
@pytest.mark.parametrize("depth", [64, 65, 500, 100_000])
@pytest.mark.parametrize(("opening", "width"), [("[", 1), ("{a: ", 4), ("- ", 2)], ids=["brackets", "braces", "dashes"])
def test_nesting_ends_at_sixty_four(opening: str, width: int, depth: int, parser: Parser) -> None:
    """The 65th list inside a list is refused where it opens, however many follow."""
    closing = {"[": "]", "{a: ": "}", "- ": ""}[opening]
    text = opening * depth + "x" + closing * depth

    if depth <= 64:
        assert _value(text, parser)
        return
    with pytest.raises(FileFaultError) as fault:
        _value(text, parser)
    location = fault.value.finding.location
    assert ("too-deep", 1, 64 * width + 1) == (fault.value.finding.code.name, location.line, location.column)
