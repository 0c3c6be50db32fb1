"""Sentences that put children out are told from those that do not, or that bring them back."""

import pytest

from lessonkit.loading.nodes import compose
from lessonkit.loading.values import Reader
from lessonkit.rules.words_of_out import brought_back, put_out
from tests.rules.laying import BASE

TABLE = BASE.parents[1] / "words-of-out.yaml"


def sentences(which: str) -> list[str]:
    """Read the loud or the quiet sentences of the table."""
    value = Reader(TABLE.name).value(compose(TABLE.read_text("utf-8"), TABLE.name))
    assert isinstance(value, dict)
    return list(value[which])


@pytest.mark.parametrize("sentence", sentences("loud"))
def test_children_who_are_out_without_a_way_back_are_seen(sentence: str) -> None:
    """The sentence puts somebody out and brings nobody back (source: the table)."""
    words = put_out(sentence)

    assert words is not None
    assert words in sentence
    assert not brought_back(sentence)


@pytest.mark.parametrize("sentence", sentences("quiet"))
def test_a_sentence_that_keeps_children_in_is_quiet(sentence: str) -> None:
    """The sentence puts nobody out, or says the way back (source: the table)."""
    assert put_out(sentence) is None or brought_back(sentence)


def test_a_sentence_may_go_over_several_lines() -> None:
    """Where a line ends says nothing: the words are those of the sentence."""
    assert put_out("1. Tap.\n2. Whoever drops the ball\n   is out.\n") == "Whoever drops the ball is out"
