"""Whatever a file holds, loading answers with a record or with findings at places of the file."""

import random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lessonkit.loading.engines import plain_engine
from lessonkit.loading.fault import FileFaultError
from lessonkit.loading.file import LoadedFile, load_content, load_text
from lessonkit.loading.nodes import PARSER, PURE_PARSER, Node, Parser, ScalarNode, compose, place
from lessonkit.records.library import KINDS
from tests.loading.cases import base

SIGNS = [*"ab1-:,[]{}#&*'\"\\ \n\t|>!?%@`~.", "- ", ": ", "\n  ", "kind: skill\n", "---\n", "<<: ", "\u2028", "\u00a0"]
UNTROUBLED = [
    *"ab1",
    "-",
    "- ",
    ":",
    ": ",
    ",",
    "[",
    "]",
    "{",
    "}",
    "#",
    " #",
    "&a ",
    "*a",
    "'",
    '"',
    "\n",
    "\n  ",
    " ",
]
"""Pieces of YAML on which both readers agree to the letter, save for three dashes inside brackets.

They differ on tags, directives and lone question marks."""
LONG = settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def _check(loaded: LoadedFile, text: str) -> None:
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    assert (loaded.record is None) == any(found.level.value == "error" for found in loaded.findings)
    for found in loaded.findings:
        assert 1 <= found.location.line <= len(lines)
        assert 1 <= found.location.column <= len(lines[found.location.line - 1].removeprefix("\ufeff")) + 1
        assert found.says.endswith(".")
        assert "\n" not in found.says


@LONG
@given(st.one_of(st.text(max_size=200), st.lists(st.sampled_from(SIGNS), max_size=30).map("".join)))
def test_any_text_is_answered(text: str) -> None:
    """No text makes loading fail; every finding is one sentence at a place that the text has."""
    _check(load_text(text, "f.yaml"), text)


@LONG
@given(st.binary(max_size=100))
def test_any_bytes_are_answered(content: bytes) -> None:
    """No file makes loading fail."""
    loaded = load_content(content, "f.yaml")

    assert (loaded.record is None) == any(found.level.value == "error" for found in loaded.findings)


@LONG
@given(st.sampled_from(sorted(KINDS)), st.data())
def test_damaged_records_are_answered(kind: str, draw: Any) -> None:
    """A record with a piece cut out and another put in is answered; both readers and engines give the same record."""
    whole = base(kind)
    start = draw.draw(st.integers(0, len(whole)))
    end = draw.draw(st.integers(start, min(len(whole), start + 40)))
    text = whole[:start] + draw.draw(st.text(st.sampled_from("ab1-:,[]{}#'\" \n"), max_size=4)) + whole[end:]
    slow = load_content(text.encode(), "f.yaml", PURE_PARSER, plain_engine)

    fast = load_text(text, "f.yaml")

    _check(fast, text)
    _check(slow, text)
    assert slow.record == fast.record


@pytest.mark.parametrize("seed", range(4))
def test_readers_agree_to_the_letter(seed: int) -> None:
    """On 2000 heaps of YAML's pieces both readers give the same values at the same places, or the same sentence."""
    chance = random.Random(seed)
    texts = ["".join(chance.choices(UNTROUBLED, k=chance.randint(1, 10))) + "\n" for _ in range(2000)]
    texts = [text for text in texts if "---" not in text]
    answers = [(_answer(text, PARSER), _answer(text, PURE_PARSER)) for text in texts]

    assert 100 < sum(1 for fast, _ in answers if fast[0] == "read")
    assert [] == [pair for pair in answers if pair[0] != pair[1]]


def _answer(text: str, parser: Parser) -> tuple[str, Any]:
    try:
        return "read", _plain(compose(text, "f.yaml", parser))
    except FileFaultError as fault:
        return "refused", fault.finding


def _plain(node: Node) -> Any:
    start = place(node, "f.yaml")
    if isinstance(node, ScalarNode):
        return start, bool(node.style), node.value
    return start, [[_plain(inner) for inner in (one if isinstance(one, tuple) else (one,))] for one in node.value]
