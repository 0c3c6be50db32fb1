"""The quick reader reads what the whole reader reads, or leaves it to that."""

import json
import random
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lessonkit.loading.cut_off import cut_off
from lessonkit.loading.fault import FileFaultError
from lessonkit.loading.nodes import compose
from lessonkit.loading.quick_reader import read_quickly
from lessonkit.loading.remarks import remarks_in
from lessonkit.loading.text import read_text
from lessonkit.loading.values import Reader

ROOT = Path(__file__).parent.parent.parent
SHIPPED = sorted((ROOT / "curriculum").rglob("*.yaml"))
SUITE = json.loads((ROOT / "tests" / "outside" / "yaml-test-suite" / "cases.json").read_text("utf-8"))
WORDS = [
    "a",
    "b-c",
    "1",
    "-2.5",
    "007",
    "null",
    "true",
    "no",
    "x: y",
    "a:b",
    "it's",
    '"q"',
    "'s'",
    "-",
    "?x",
    "1e3",
    "",
]
PIECES = [
    *(
        "a: ",
        "b:",
        '"c": ',
        "- ",
        "-",
        ": ",
        "|",
        ">",
        "[",
        "]",
        "{",
        "}",
        ", ",
        ",",
        "#",
        " #",
        " # x",
        "&a ",
        "*a",
        "!",
    ),
    *(
        "\n",
        "\n",
        "\n",
        "\n  ",
        "\n  ",
        "\n    ",
        "\n- ",
        "\n  - ",
        " ",
        "\t",
        "'",
        '"',
        "\\",
        "---\n",
        "...\n",
        "%",
        "@",
    ),
    *WORDS,
]


def _whole(text: str) -> Any:
    """Return the values as the whole reader has them; None where it has anything to say."""
    try:
        top = compose(read_text(text.encode(), "f.yaml"), "f.yaml")
        reader = Reader("f.yaml")
        value = reader.value(top)
    except FileFaultError:
        return None
    said = [*reader.findings, *cut_off(text, top, "f.yaml"), *remarks_in(text, top, "f.yaml")]
    return None if said else value


def _differs(text: str) -> bool:
    """Tell whether the quick reader says anything else than the whole one; ``1`` and ``1.0`` and ``true`` differ."""
    quick = read_quickly(text)
    return quick is not None and repr(quick) != repr(_whole(text))


def test_shipped_records_are_read_quickly() -> None:
    """At least 98 of 100 shipped records have the usual layout, and their values are those of the whole reader."""
    texts = [path.read_text("utf-8") for path in SHIPPED]

    assert [] == [path for path, text in zip(SHIPPED, texts, strict=True) if _differs(text)]
    assert 0.98 * len(texts) <= sum(read_quickly(text) is not None for text in texts)


@pytest.mark.parametrize("seed", range(4))
def test_changed_records_are_read_alike(seed: int) -> None:
    """Of 600 records with one to three signs or lines changed, none has other values; more than 80 are quick."""
    chance = random.Random(seed)
    texts = [path.read_text("utf-8")[:3000].rpartition("\n")[0] + "\n" for path in SHIPPED]
    changed = [_changed(chance.choice(texts), chance) for _ in range(600)]

    assert [] == [text for text in changed if _differs(text)]
    assert 80 < sum(read_quickly(text) is not None for text in changed)


def _changed(text: str, chance: random.Random) -> str:
    for _ in range(chance.randint(1, 3)):
        start = chance.randrange(len(text))
        match chance.randrange(4):
            case 0:
                text = text[:start] + text[start + chance.randint(1, 4) :]
            case 1:
                text = text[:start] + chance.choice(PIECES) + text[start:]
            case 2:
                lines = text.split("\n")
                lines.insert(chance.randrange(len(lines)), lines.pop(chance.randrange(len(lines))))
                text = "\n".join(lines)
            case _:
                text = text[:start] + chance.choice(PIECES) + text[start + 1 :]
    return text if text.endswith("\n") else text + "\n"


@pytest.mark.parametrize("seed", range(4))
def test_heaps_of_pieces_are_read_alike(seed: int) -> None:
    """Of 3000 heaps of the pieces of YAML, none has other values; more than 30 are quick."""
    chance = random.Random(seed)
    starts = ("a: ", "a:\n  - ")
    texts = [
        chance.choice(starts) + "".join(chance.choices(PIECES, k=chance.randint(1, 12))) + "\n" for _ in range(3000)
    ]

    assert [] == [text for text in texts if _differs(text)]
    assert 30 < sum(read_quickly(text) is not None for text in texts)


@pytest.mark.parametrize("seed", range(2))
def test_brackets_are_read_alike(seed: int) -> None:
    """Of 3000 texts in brackets, none has other values; more than 300 are quick."""
    chance = random.Random(seed)
    texts = [f"a: {_brackets(chance, 3)}\n" for _ in range(3000)]

    assert [] == [text for text in texts if _differs(text)]
    assert 300 < sum(read_quickly(text) is not None for text in texts)


def _brackets(chance: random.Random, depth: int) -> str:
    if depth == 0 or chance.random() < 0.4:
        return chance.choice([*WORDS, "a b", "a b ", '"a, [b]: c"', "'a, b'", "'it''s'", "a #b"])
    inner = [_brackets(chance, depth - 1) for _ in range(chance.randrange(4))]
    if chance.random() < 0.5:
        return f"[{', '.join(inner)}]"
    return "{" + ", ".join(f"{chance.choice('xyz')}: {one}" for one in inner) + "}"


def test_the_suite_is_read_alike() -> None:
    """No case of the YAML Test Suite has other values."""
    assert [] == [case["id"] for case in SUITE if _differs(case["yaml"])]


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.sampled_from(PIECES), max_size=20).map("".join))
def test_any_text_is_read_alike(text: str) -> None:
    """Nothing made of the pieces of YAML has other values."""
    assert not _differs(text + "\n")


@pytest.mark.parametrize(
    "text", ["a: 1  # why\n", "a:\tb\n", 'a: "b\\n"\n', "a: 1\na: 2\n", "a:\n", "a: 1\n  b\n", "a: &x 1\n", "a: b\r\n"]
)
def test_what_is_not_usual_is_left_to_the_whole_reader(text: str) -> None:
    """Comments behind a text, tabs, backslashes, fields twice, no value, further lines, anchors, other line ends."""
    assert read_quickly(text) is None


@pytest.mark.parametrize(
    "text", ["a: [b],\n", "a: [b]]\n", "a: [,]\n", "a: {b}\n", "a: [b: c]\n", "- a\n", "a: [[b], c]]\n"]
)
def test_brackets_out_of_order_are_left_to_the_whole_reader(text: str) -> None:
    """Commas and brackets where none belong, and lists where fields belong."""
    assert read_quickly(text) is None
