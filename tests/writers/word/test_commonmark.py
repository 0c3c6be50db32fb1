"""The examples of the CommonMark specification in Word files, read back by an independent reader.

Expected values are the specification's own HTML. Where the house has a rule of its own, the rule is applied to that
HTML: raw HTML stands as typed, a picture is its alternative text, and a link to anything but the web, mail or an anchor
keeps only its words.
"""

import io
import json
import re
from functools import lru_cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import mammoth
from lxml import etree
from markdown_it import MarkdownIt

from lessonkit.document.markdown import is_safe_target, read_markdown
from lessonkit.document.model import Block, Document, Heading, text
from lessonkit.writers.options import Options
from lessonkit.writers.word.writer import write

from .word_parts import parts, schema_faults, values, w

EXAMPLES: list[dict[str, Any]] = json.loads(
    (Path(__file__).parents[2] / "outside" / "commonmark-0.31.2" / "spec.json").read_text(encoding="utf-8")
)
_MARK = "Example number"
_STYLES = "\n".join(
    (
        *(f"p.Heading{level} => h{level}:fresh" for level in range(1, 7)),
        "p.Code => pre:fresh",
        "p.Quote => blockquote > p:fresh",
        *(f"p.ListContinue{level} => p:fresh" for level in range(1, 10)),
        "r.Strong => strong",
        "r.Emphasis => em",
        "r.CodeText => code",
        "r.StrongEmphasis => strong > em",
        "r.StrongCodeText => strong > code",
        "r.EmphasisCodeText => em > code",
        "r.StrongEmphasisCodeText => strong > em > code",
        "r.StrongHyperlink => strong",
        "r.EmphasisHyperlink => em",
        "r.CodeTextHyperlink => code",
        "r.StrongEmphasisHyperlink => strong > em",
        "r.StrongCodeTextHyperlink => strong > code",
        "r.EmphasisCodeTextHyperlink => em > code",
        "r.StrongEmphasisCodeTextHyperlink => strong > em > code",
    )
)
_KINDS = {"pre", *(f"h{level}" for level in range(1, 7))}
_KEPT = {"strong", "em", "code", "blockquote", *_KINDS}
_VOID = {"img", "br", "hr", "input"}
_BLOCKS = {
    "p",
    "pre",
    "blockquote",
    "li",
    "ul",
    "ol",
    "hr",
    "br",
    "table",
    "tr",
    "td",
    "div",
    *(f"h{n}" for n in range(1, 7)),
}
Character = tuple[str, frozenset[str]]


class _Characters(HTMLParser):
    """Every character of a piece of HTML with the marks that it stands under.

    A paragraph in Word has one style: code and headings inside a quotation keep theirs and count as what they are.
    """

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[tuple[str, str]] = []
        self.found: list[Character] = []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        given = dict(attributes)
        if tag in _BLOCKS:
            self.handle_data("\n")
        if tag == "img":
            self.handle_data(given.get("alt") or "")
        if tag not in _VOID:
            target = given.get("href") or ""
            mark = f"link {target}" if tag == "a" and is_safe_target(target) else tag
            self.open.append((tag, mark))

    def handle_endtag(self, tag: str) -> None:
        if tag in _BLOCKS:
            self.handle_data("\n")
        while tag not in _VOID and self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        marks = frozenset(mark for _, mark in self.open if mark in _KEPT or mark.startswith("link "))
        if "pre" in marks:
            marks -= {"code"}
        if marks & _KINDS:
            marks -= {"blockquote"}
        self.found.extend((letter, marks) for letter in data)


def characters(html: str) -> list[Character]:
    """Return the characters of HTML with their marks, white space between words counted once and without marks."""
    parser = _Characters()
    parser.feed(html)
    parser.close()
    found: list[Character] = []
    for letter, marks in parser.found:
        if letter in " \t\n\u00a0":
            if found and found[-1][0] != " ":
                found.append((" ", frozenset()))
        else:
            found.append((letter, marks))
    if found and found[-1][0] == " ":
        found.pop()
    return found


def words(found: list[Character]) -> str:
    """Return the letters alone."""
    return "".join(letter for letter, _ in found)


@lru_cache(maxsize=1)
def _read_back() -> dict[int, str]:
    """Write all examples into one Word file, each under its own heading, and return the HTML of each as read back."""
    html = mammoth.convert_to_html(io.BytesIO(_written()), style_map=_STYLES).value
    pieces = html.split(f"<h6>{_MARK} ")[1:]
    found = {}
    for piece in pieces:
        number, _, rest = piece.partition("</h6>")
        found[int(number)] = rest.partition('<h6><a id="fragment">')[0]
    return found


@lru_cache(maxsize=1)
def _written() -> bytes:
    blocks: list[Block] = []
    for example in EXAMPLES:
        blocks.append(Heading(6, text(f"{_MARK} {example['example']}")))
        blocks.extend(read_markdown(example["markdown"]))
    blocks.append(Heading(6, text(f"{_MARK} 0"), anchor="fragment"))
    return write(Document("CommonMark", "", "", "", "2024-01-28", tuple(blocks)), Options())


def _expected(example: dict[str, Any]) -> str:
    """Return the specification's HTML, raw HTML in it as typed."""
    reader = MarkdownIt("commonmark")
    tokens = reader.parse(example["markdown"])
    raw = any(
        token.type == "html_block" or any(child.type == "html_inline" for child in token.children or ())
        for token in tokens
    )
    if not raw:
        return str(example["html"])

    def typed(renderer: Any, tokens: Any, place: int, options: Any, env: Any) -> str:
        escaped = str(tokens[place].content).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
        return f"<p>{escaped}</p>" if tokens[place].type == "html_block" else escaped

    reader.add_render_rule("html_block", typed)
    reader.add_render_rule("html_inline", typed)
    return str(reader.render(example["markdown"]))


def test_all_text_of_all_examples_is_kept() -> None:
    """Each of the 652 examples gives the words of the specification's HTML, in their order."""
    back = _read_back()

    assert 652 == len(EXAMPLES)
    assert [] == [
        (example["example"], expected, found)
        for example in EXAMPLES
        if (expected := words(characters(_expected(example)))) != (found := words(characters(back[example["example"]])))
    ]


def test_stress_code_links_headings_and_quotes_are_kept() -> None:
    """Each of the 652 examples gives the specification's characters under the same marks; none is excepted."""
    back = _read_back()

    assert [] == [
        (example["example"], example["html"], back[example["example"]])
        for example in EXAMPLES
        if characters(_expected(example)) != characters(back[example["example"]])
    ]


def test_code_keeps_its_spaces() -> None:
    """The text of every code block is the specification's to the last space."""
    back = _read_back()

    assert [] == [
        (example["example"], expected, found)
        for example in EXAMPLES
        if (expected := _code(_expected(example).replace("\n</code></pre>", "</code></pre>")))
        != (found := _code(back[example["example"]].replace("<br />", "\n")))
    ]


def _code(html: str) -> list[str]:
    return [block for block in re.findall(r"<pre>(?:<code[^>]*>)?(.*?)(?:</code>)?</pre>", html, re.DOTALL) if block]


class _Items(HTMLParser):
    """The list items of a piece of HTML: depth from 0, and the number that a numbered list begins with."""

    def __init__(self) -> None:
        super().__init__()
        self.lists: list[int | None] = []
        self.found: list[tuple[int, int | None]] = []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        if tag in {"ul", "ol"}:
            self.lists.append(int(dict(attributes).get("start") or 1) if tag == "ol" else None)
        if tag == "li":
            self.found.append((len(self.lists) - 1, self.lists[-1]))

    def handle_endtag(self, tag: str) -> None:
        if tag in {"ul", "ol"}:
            self.lists.pop()


def test_list_items_keep_depth_kind_and_first_number() -> None:
    """Every list item stands as deep as in the specification, in a list of the same kind and the same first number."""
    back = _items_by_example()
    different = {}
    for example in EXAMPLES:
        items = _Items()
        items.feed(_expected(example))
        if items.found != back[example["example"]]:
            different[example["example"]] = (items.found, back[example["example"]])

    assert {265: ([(0, 123456789)], [(0, 32767)])} == different, "Word counts no list from beyond 32767"


def _items_by_example() -> dict[int, list[tuple[int, int | None]]]:
    written = parts(_written())
    numbering = etree.fromstring(written["word/numbering.xml"])
    starts = {
        (number.get(w("numId")), int(level.get(w("ilvl"), ""))): int(values(level, "start")[0])
        for number, definition in zip(numbering.iter(w("num")), numbering.iter(w("abstractNum")), strict=True)
        for level in definition.iter(w("lvl"))
        if set(values(level, "numFmt")) != {"bullet"}
    }
    found: dict[int, list[tuple[int, int | None]]] = {}
    items: list[tuple[int, int | None]] = []
    for paragraph in etree.fromstring(written["word/document.xml"]).iter(w("p")):
        said = "".join(str(piece.text) for piece in paragraph.iter(w("t")))
        if said.startswith(_MARK):
            items = found.setdefault(int(said.removeprefix(_MARK)), [])
        level, number = paragraph.find(f".//{w('ilvl')}"), paragraph.find(f".//{w('numId')}")
        if level is not None and number is not None:
            depth = int(level.get(w("val"), ""))
            items.append((depth, starts.get((number.get(w("val")), depth))))
    return found


def test_all_examples_obey_the_standard() -> None:
    """The file with all examples is valid against the schemas of ISO/IEC 29500-4."""
    written = parts(_written())

    assert [] == [
        fault for name in ("word/document.xml", "word/numbering.xml") for fault in schema_faults(name, written[name])
    ]
