"""Every seeded fault is said once, at its place, in a teacher's words."""

import pytest

from lessonkit.loading.engines import plain_engine
from lessonkit.loading.file import load_content, load_text
from lessonkit.loading.nodes import PURE_PARSER
from tests.loading.cases import Case, cases, told

FAULTS = [case for name in ("syntax", "fields", "values") for case in cases(name)]


@pytest.mark.parametrize("case", FAULTS, ids=str)
def test_fault_is_said_at_its_place(case: Case) -> None:
    """The findings of a text with one fault are those of the case, no more."""
    loaded = load_text(case.text, "record.yaml")

    assert case.expected == told(loaded.findings)


@pytest.mark.parametrize("case", FAULTS, ids=str)
def test_slow_readers_say_the_same(case: Case) -> None:
    """Where the fast YAML reader and schema engine are missing, the sentences and places are the same."""
    loaded = load_content(case.text.encode(), "record.yaml", PURE_PARSER, plain_engine)

    assert case.expected == told(loaded.findings)
