"""The pages of loading's findings do what they say: what fails fails, and what passes passes."""

import re
import textwrap

import pytest

from lessonkit.loading.codes import CODES
from lessonkit.loading.file import load_text
from lessonkit.loading.pages import explain
from lessonkit.source.finding import Code
from tests.loading.cases import base

WITHOUT_SNIPPETS = {
    "unreadable-file",
    "wrong-encoding",
    "file-too-large",
    "unseen-character",
    "too-many-copies",
    "too-deep",
    "same-id",
}
WHOLE_FILES = {"empty-file", "several-records", "no-kind", "unknown-kind"}
IDS = [code.name for code in CODES]


def test_codes_are_numbered_in_order_and_named_once() -> None:
    """Numbers LK101 to LK199 belong to loading; each number and each name stands for one kind of finding."""
    numbers = [code.number for code in CODES]

    assert sorted(set(numbers)) == numbers
    assert len(set(IDS)) == len(CODES)
    assert all(re.fullmatch(r"LK1\d\d", number) for number in numbers)
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", name) for name in IDS)


@pytest.mark.parametrize("code", CODES, ids=IDS)
def test_every_code_has_a_page(code: Code) -> None:
    """A page is found by name and by number, and begins with a sentence."""
    page = explain(code.name)

    assert page is not None
    assert page == explain(code.number) == explain(code.number.lower())
    assert page.splitlines()[0] == f"{code.name} ({code.number}, {code.level.value})"
    assert page.splitlines()[2].endswith(".")
    assert ("Fails:" in page and "Passes:" in page) == (code.name not in WITHOUT_SNIPPETS)


def test_other_names_have_no_page() -> None:
    """Pages of rules are not loading's."""
    assert explain("cue-too-long") is None


@pytest.mark.parametrize("code", [code for code in CODES if code.name not in WITHOUT_SNIPPETS], ids=lambda c: c.name)
def test_snippets_do_what_the_page_says(code: Code) -> None:
    """The snippet that fails gives this finding, and the one that passes does not."""
    assert code in _codes_of(_snippet(code, "Fails"), code)
    assert code not in _codes_of(_snippet(code, "Passes"), code)


def _snippet(code: Code, heading: str) -> str:
    found = re.search(rf"^{heading}:\n\n((?:    [^\n]*\n?|\n)+)", explain(code.name) or "", re.MULTILINE)
    assert found is not None
    return textwrap.dedent(found.group(1)).strip() + "\n"


def _codes_of(lines: str, code: Code) -> set[Code]:
    if code.name not in WHOLE_FILES:
        given = set(re.findall(r"(?m)^([a-z]+):", lines))
        blocks = re.split(r"(?m)^(?=[a-z])", base("skill"))
        lines += "".join(block for block in blocks if block.partition(":")[0] not in given)
    return {found.code for found in load_text(lines, "s.yaml").findings}
