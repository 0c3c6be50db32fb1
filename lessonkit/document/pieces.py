"""Small blocks that many pages share."""

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from lessonkit.document.keys import joint_key
from lessonkit.document.markdown import read_inline, read_markdown
from lessonkit.document.model import Block, Cell, Inline, ListBlock, Paragraph, Role, Strong, Text

EN_DASH = "\u2013"
NO_BREAK = "\u00a0"
_SHORT = 4
"""Letters and signs of a last word that would look lost on a line of its own."""


@lru_cache(maxsize=2_000)
def inline(words: str) -> tuple[Inline, ...]:
    """Return a record's one-line field as inline content, read once however many pages are tried with it."""
    return read_inline(words)


@lru_cache(maxsize=200)
def markdown(written: str) -> tuple[Block, ...]:
    """Return a record's Markdown as blocks, read once however many pages are tried with it."""
    return read_markdown(written)


def sentence(words: str, role: Role = Role.BODY, key: str | None = None) -> Paragraph:
    """Return a record's sentence as a paragraph, its *stress* kept; ``key`` is that of its field."""
    return Paragraph(inline(words), role, key)


def bound(words: str) -> tuple[Inline, ...]:
    """Return a few words for large letters as inline content, a short last word never alone on its line."""
    before, space, last = words.rpartition(" ")
    return inline(f"{before}{NO_BREAK}{last}" if space and len(last) <= _SHORT else words)


def bullets(sentences: Iterable[str], role: Role = Role.BODY) -> tuple[Block, ...]:
    """Return sentences as a bulleted list; nothing for none, a plain paragraph for one."""
    items = tuple(sentences)
    if len(items) < 2:
        return tuple(sentence(words, role) for words in items)
    return (ListBlock(tuple((sentence(words, role),) for words in items)),)


def keyed_bullets(sentences: Mapping[str, str | None], role: Role = Role.BODY) -> tuple[Block, ...]:
    """Return sentences as ``bullets`` does, each with the key of the record field that it comes from."""
    items = tuple(Paragraph(inline(words), role, key) for words, key in sentences.items())
    return items if len(items) < 2 else (ListBlock(tuple((item,) for item in items)),)


def cell(*blocks: Block, span: int = 1, shaded: bool = False) -> Cell:
    """Return a table cell holding the blocks; an empty one holds an empty paragraph."""
    return Cell(blocks or (Paragraph(()),), span, shaded)


def words_cell(words: str, role: Role = Role.BODY, key: str | None = None) -> Cell:
    """Return a table cell that holds one sentence; ``key`` is that of its field."""
    return cell(sentence(words, role, key))


def strong_cell(words: str, key: str | None = None) -> Cell:
    """Return a table cell whose words stand out; ``key`` is that of the field in them."""
    return cell(Paragraph((Strong((Text(words),)),), key=key))


def labelled(label: str, words: str) -> tuple[Inline, ...]:
    """Return a strong label and a sentence on one line; in both *stress* is kept."""
    return (Strong((*inline(label), Text(" "))), *inline(words))


def closed(title: str) -> str:
    """Return a title with a full stop, for words to follow; a question or a call keeps its own mark."""
    return title if title.endswith(("?", "!", ".", "\u2026")) else f"{title}."


def together(pieces: Iterable[tuple[Inline, ...]]) -> tuple[Inline, ...]:
    """Return pieces one behind the other, a space between them."""
    return tuple(inline for place, piece in enumerate(pieces) for inline in (*((Text(" "),) if place else ()), *piece))


def in_one(paragraphs: Sequence[Paragraph]) -> Paragraph:
    """Return paragraphs as one, with the keys of them all."""
    words = together(each.content for each in paragraphs)
    return Paragraph(words, key=joint_key(each.key for each in paragraphs if each.key))
