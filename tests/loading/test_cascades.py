"""One slip gives one sentence, or a few; never a flood, and never the language of programs."""

import re
from collections.abc import Iterator

import pytest

from lessonkit.loading.file import load_text
from lessonkit.loading.shape import schema_of, shape_faults
from lessonkit.loading.wording import say_faults
from lessonkit.records.library import KINDS
from tests.loading.cases import base, data
from tests.loading.mutants import mutants

JARGON = re.compile(
    r"\b(property|properties|array|object|string|integer|boolean|regex|regular expression|null|None|True|False|enum|"
    r"const|schema|additional|required|match|matches|valid|invalid|keyword|mapping|scalar|sequence|token|parse)\b"
)
MOST = 3
"""Findings that one slip may give."""


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_one_strange_value_gives_few_findings(kind: str) -> None:
    """Whatever stands in place of one value, it gives one to three plain sentences, or is in order."""
    for mutant in mutants(data(kind)):
        faults = shape_faults(kind, mutant)
        said = say_faults(schema_of(kind), mutant, faults, lambda _: None)

        assert bool(faults) == bool(said)
        assert len(said) <= MOST, said
        assert [] == [one.says for one in said if JARGON.search(one.says) or not one.says.endswith(".")]


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_one_slip_in_a_line_gives_few_findings(kind: str) -> None:
    """Whatever slips in one line of a record, it gives at most three plain sentences at a place in the file."""
    for text in _slips(base(kind).splitlines()):
        loaded = load_text(text, "record.yaml")

        assert len(loaded.findings) <= MOST, text
        assert [] == [found.says for found in loaded.findings if JARGON.search(found.says)]
        assert all(found.location.line <= text.count("\n") + 1 for found in loaded.findings)


def _slips(lines: list[str]) -> Iterator[str]:
    for number, line in enumerate(lines):
        changes: tuple[list[str], ...] = (
            [],
            [line, line],
            ["  " + line],
            ["\t" + line],
            [line.removeprefix("  ")],
            [line.replace(":", "", 1)],
            [line.replace(": ", ":", 1)],
            [line.replace("- ", "", 1)],
            [line.replace(", ", " ", 1)],
            [line.replace("[", "", 1)],
            [line.replace("}", "", 1)],
            [line + ": x"],
            [line + ' "'],
            [line + " #x"],
            ["'" + line],
        )
        for change in changes:
            yield "\n".join([*lines[:number], *change, *lines[number + 1 :]]) + "\n"
