"""Sentences tell whether something flies, stays low, or leave it open."""

import pytest

from lessonkit.loading.nodes import compose
from lessonkit.loading.values import Reader
from lessonkit.rules.words_of_flight import Flight, flight
from tests.rules.laying import BASE

TABLE = BASE.parents[1] / "words-of-flight.yaml"


def sentences() -> list[tuple[Flight, str]]:
    """Read the table: what each sentence says of a thing that could be thrown."""
    value = Reader(TABLE.name).value(compose(TABLE.read_text("utf-8"), TABLE.name))
    assert isinstance(value, dict)
    return [(Flight[name.upper()], sentence) for name, lines in value.items() for sentence in lines]


@pytest.mark.parametrize(("says", "sentence"), sentences())
def test_a_sentence_says_whether_something_flies(says: Flight, sentence: str) -> None:
    """What the sentence says of a ball or a beanbag (source: the table)."""
    known, because = flight([sentence])

    assert says is known
    assert (says is Flight.FLIES) == (because != "")
