"""Inline content as runs: stress and code as character styles, links as hyperlinks."""

from functools import lru_cache

from lessonkit.document.markdown import is_safe_target
from lessonkit.document.model import CodeText, Emphasis, Inline, LineBreak, Link, Strong, Text
from lessonkit.writers.word.ledger import Ledger, anchor_bookmark, usable_address
from lessonkit.writers.word.styles import joint_mark
from lessonkit.writers.word.xml import literal_run, quoted, run

_NONE: frozenset[str] = frozenset()
_STRONG = frozenset(("Strong",))
_EMPHASIS = frozenset(("Emphasis",))
_CODE = frozenset(("CodeText",))
_BREAK = "<w:r><w:br/></w:r>"


def runs(content: tuple[Inline, ...], ledger: Ledger, *, bold: bool = False) -> str:
    """Return runs for inline content. In a paragraph that is ``bold`` already strong words need no mark."""
    match content:
        case (Text(text=words),):
            return run(words)
        case _:
            return _runs(content, ledger, _NONE, bold) if content else ""


def literal_runs(content: tuple[Inline, ...]) -> str:
    """Return runs whose spaces and lines stay as they are; the paragraph's style says that it is code."""
    pieces: list[str] = []
    for inline in content:
        match inline:
            case Text(text=words) | CodeText(text=words):
                pieces.append(literal_run(words))
            case LineBreak():
                pieces.append(_BREAK)
            case Strong(content=inner) | Emphasis(content=inner) | Link(content=inner):
                pieces.append(literal_runs(inner))
    return "".join(pieces)


def _runs(content: tuple[Inline, ...], ledger: Ledger, marks: frozenset[str], bold: bool) -> str:
    pieces: list[str] = []
    style = _joint(marks)
    for inline in content:
        match inline:
            case Text(text=words):
                pieces.append(run(words, style))
            case Strong(content=inner):
                pieces.append(_runs(inner, ledger, marks if bold else marks | _STRONG, bold))
            case Emphasis(content=inner):
                pieces.append(_runs(inner, ledger, marks | _EMPHASIS, bold))
            case CodeText(text=words):
                pieces.append(literal_run(words, _joint(marks | _CODE)))
            case LineBreak():
                pieces.append(_BREAK)
            case Link():
                pieces.append(_link(inline, ledger, marks, bold))
    return "".join(pieces)


_joint = lru_cache(maxsize=64)(joint_mark)


def _link(link: Link, ledger: Ledger, marks: frozenset[str], bold: bool) -> str:
    """Return a hyperlink, or only its words where the target leads nowhere.

    A link inside the document looks like the words around it, as Word's own cross-references do: a page full of codes
    stays calm on paper.
    """
    target = _target(link.target, ledger)
    if not target:
        return _runs(link.content, ledger, marks, bold)
    if not link.target.startswith("#"):
        marks |= {"Hyperlink"}
    inside = _runs(link.content, ledger, marks, bold)
    return f'<w:hyperlink {target} w:history="1">{inside}</w:hyperlink>'


def _target(target: str, ledger: Ledger) -> str:
    if target.startswith("#"):
        return f'w:anchor="{anchor_bookmark(target[1:])}"' if target[1:] in ledger.anchors else ""
    if is_safe_target(target) and usable_address(target):
        return f'r:id="{quoted(ledger.link(target))}"'
    return ""
