"""A small fixed plan of shipped activities, worked out for a class, and what its pages say."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import msgspec

from lessonkit.document.lesson_facts import PlanFacts, work_out
from lessonkit.document.markdown import read_markdown
from lessonkit.document.model import (
    Block,
    CheckBoxes,
    Document,
    Heading,
    Inline,
    KeyValues,
    Link,
    ListBlock,
    Note,
    Paragraph,
    Table,
    plain,
)
from lessonkit.loading.folder import load_folder
from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.plan import Plan

ROOT = Path(__file__).parents[2]
CASES = Path(__file__).parents[1] / "cases" / "document"


@lru_cache(maxsize=1)
def library() -> Library:
    """Return the records of the shipped curriculum."""
    return load_folder(ROOT / "curriculum", "curriculum").library


@lru_cache(maxsize=1)
def fixed_plan() -> Plan:
    """Return the plan of three lessons that lies beside the tests."""
    return load_folder(CASES, "cases").library.plans["three-lessons"]


@lru_cache(maxsize=16)
def facts(
    school_class: str = "grade-3-heron", children: int = 25, paper: str = "letter", lengths: str = "metres"
) -> PlanFacts:
    """Return the fixed plan worked out for a class of a size."""
    return worked_out(fixed_plan(), school_class, children, paper, lengths)


def worked_out(plan: Plan, school_class: str, children: int, paper: str, lengths: str = "metres") -> PlanFacts:
    """Return a plan worked out for a class of a size, on a paper."""
    school = library().schools["quillfeather"]
    classes = tuple(msgspec.structs.replace(each, children=children) for each in school.classes)
    changed = msgspec.structs.replace(school, classes=classes, paper=paper, lengths=lengths)
    plan = msgspec.structs.replace(plan, school_class=school_class)
    return work_out(plan, replace(library(), schools={school.id: changed}))


def steps_of(activity: Activity) -> list[str]:
    """Return the words of every step of an activity, however deep it stands."""
    return [plain(block.content) for block in walk(read_markdown(activity.steps)) if isinstance(block, Paragraph)]


def walk(blocks: tuple[Block, ...]) -> Iterator[Block]:
    """Yield blocks and all that they hold, in reading order."""
    for block in blocks:
        yield block
        match block:
            case ListBlock(items=items):
                for item in items:
                    yield from walk(item)
            case Note(blocks=inner):
                yield from walk(inner)
            case Table(rows=rows):
                for row in rows:
                    for cell in row:
                        yield from walk(cell.blocks)


def contents_of(block: Block) -> tuple[tuple[Inline, ...], ...]:
    """Return the inline contents of one block, without those of the blocks it holds."""
    match block:
        case Paragraph(content=content) | Heading(content=content):
            return (content,)
        case KeyValues(pairs=pairs):
            return tuple(value for _, value in pairs)
        case CheckBoxes(items=items):
            return items
        case _:
            return ()


def links_of(content: tuple[Inline, ...]) -> Iterator[str]:
    """Yield the targets of the links of inline content."""
    for inline in content:
        if isinstance(inline, Link):
            yield inline.target
        yield from links_of(getattr(inline, "content", ()))


def said(document: Document) -> str:
    """Return all words of a document in reading order."""
    return flat("\n".join(plain(content) for block in walk(document.blocks) for content in contents_of(block)))


def flat(words: str) -> str:
    """Return words with single plain spaces, as readers differ in them."""
    return " ".join(words.replace("\u00a0", " ").split())
