"""A school's own Word file as the base of ours: its theme, styles, headers, footers and their pictures."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Final
from xml.etree import ElementTree as Xml

from lessonkit.writers.options import SchoolLook
from lessonkit.writers.word.flat_styles import FlatStyles, Properties, paragraph_markup, run_markup
from lessonkit.writers.word.furniture import Furniture, read_furniture
from lessonkit.writers.word.hostile import refuse_hostile
from lessonkit.writers.word.look import PARAGRAPHS, Style
from lessonkit.writers.word.opening import UnsafeFileError, main_part, parse, relations, resolve, unpack
from lessonkit.writers.word.resolved import name, value
from lessonkit.writers.word.school_colors import read_colors, readable

_COLOR: Final = re.compile("[0-9A-Fa-f]{6}")
_A: Final = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
USUAL: Final = ("Title", *(f"heading {level}" for level in range(1, 7)), "caption", "Quote", "footer")
"""Styles of ours that take the look of the school's style of the same name, unless the record says otherwise."""
OURS: Final = "ours"
"""What the record says where our own look of a style shall stay."""


@dataclass(frozen=True, slots=True)
class Base:
    """What is taken over: colours by theme slot, fonts of headings and words, styles by our ids, further styles."""

    colors: Mapping[str, str]
    heading_font: str
    font: str
    styles: Mapping[str, Style]
    further: tuple[Style, ...]
    furniture: Furniture = field(default_factory=Furniture)


@lru_cache(maxsize=4)
def read_base(look: SchoolLook) -> Base:
    """Return what a school's Word file gives.

    Raises UnsafeFileError with the rest of a sentence for one that is not safe, is broken, or lacks a style that the
    record names.
    """
    parts = unpack(look.document)
    refuse_hostile(parts)
    main = main_part(parts)
    related = {relation.kind: resolve(main, relation.target) for relation in relations(parts, main)}
    trees = {kind: parse(parts[related[kind]]) for kind in ("styles", "theme") if related.get(kind) in parts}
    styles = FlatStyles(trees.get("styles"))
    chosen = _chosen(styles, dict(look.styles))
    further = tuple(_further(styles, set(chosen.values())))
    ids = {**{theirs: ours for ours, theirs in chosen.items()}, **{old: style.id for old, style in further}}
    plain = ids.get(styles.default, "")
    fonts = dict(_theme_fonts(trees.get("theme")))
    heading = styles.find("heading 1") or styles.default
    return Base(
        colors=read_colors(trees.get("theme")),
        heading_font=_font(styles, heading, fonts),
        font=_font(styles, styles.default, fonts),
        styles={ours: _taken(styles, ours, theirs) for ours, theirs in chosen.items()},
        further=tuple(style for _, style in further),
        furniture=read_furniture(parts, main, ids, plain),
    )


def _chosen(styles: FlatStyles, wanted: Mapping[str, str]) -> dict[str, str]:
    """Return the id of theirs for each id of ours that takes theirs."""
    known = {style.name.casefold(): style.id for style in PARAGRAPHS} | {"footer": "Footer"}
    asked = {ours.casefold(): theirs for ours, theirs in wanted.items()}
    for ours in asked:
        if ours not in known:
            raise UnsafeFileError(f"cannot change the style {ours!r}: our pages have no such style")
    chosen: dict[str, str] = {}
    for ours in dict.fromkeys((*(each.casefold() for each in USUAL), *asked)):
        theirs = asked.get(ours, ours)
        if theirs.casefold() == OURS:
            continue
        found = styles.find(theirs)
        if found is None and ours in asked:
            names = ", ".join(sorted(styles.title(each) for each in styles.ids("paragraph"))[:12])
            raise UnsafeFileError(f"has no paragraph style {theirs!r}; it has {names or 'none'}")
        if found is not None:
            chosen[known[ours]] = found
    return chosen


def _taken(styles: FlatStyles, ours: str, theirs: str) -> Style:
    """Return our style with the look of theirs. Headings keep with what follows, as ours do."""
    paragraph, run = styles.properties(theirs)
    run = _legible(paragraph, run)
    own = next((style for style in PARAGRAPHS if style.id == ours), Style("Footer", "footer", custom=False))
    level = re.fullmatch(r"heading ([1-6])", own.name)
    if level:
        for tag in ("keepNext", "keepLines"):
            paragraph[tag] = Xml.Element(name(tag))
        paragraph["outlineLvl"] = Xml.Element(name("outlineLvl"), {name("val"): str(int(level[1]) - 1)})
    return Style(
        own.id,
        own.name,
        based_on="",
        next=own.next,
        paragraph=paragraph_markup(paragraph),
        run=run_markup(run),
        custom=own.custom,
    )


def _legible(paragraph: Properties, run: Properties) -> Properties:
    """Return properties of letters whose colour has contrast enough on paper; on a ground of its own it stays."""
    color = value(run.get("color"))
    if "shd" in paragraph or "shd" in run or value(run.get("color"), "themeColor") or not _COLOR.fullmatch(color):
        return run
    return {**run, "color": Xml.Element(name("color"), {name("val"): readable(color)})}


def _further(styles: FlatStyles, taken: set[str]) -> Iterator[tuple[str, Style]]:
    """Yield the school's other styles with their old ids, under names and ids that none of ours has."""
    names = {style.name.casefold() for style in PARAGRAPHS} | {"footer", "normal"}
    names |= {f"{style.name} on New Page".casefold() for style in PARAGRAPHS}
    used: set[str] = set()
    for kind in ("paragraph", "character"):
        for identity in styles.ids(kind):
            if identity in taken:
                continue
            title = styles.title(identity) or identity
            if title.casefold() in names or title.casefold() in used or _is_ours(title):
                title = f"{title} (school)"
            used.add(title.casefold())
            paragraph, run = styles.properties(identity)
            ours = f"School{len(used)}"
            yield (
                identity,
                Style(
                    ours,
                    title,
                    kind,
                    based_on="",
                    paragraph=paragraph_markup(paragraph) if kind == "paragraph" else "",
                    run=run_markup(run),
                ),
            )


def _is_ours(title: str) -> bool:
    """Tell whether a built-in name belongs to a style that our files make besides the table of the look."""
    return (
        re.fullmatch(
            r"list continue.*|toc [1-9]|strong.*|emphasis.*|hyperlink|code text.*|default paragraph font|tick box",
            title.casefold(),
        )
        is not None
    )


def _theme_fonts(theme: Xml.Element | None) -> Iterator[tuple[str, str]]:
    for kind in ("major", "minor"):
        found = None if theme is None else theme.find(f".//{_A}{kind}Font/{_A}latin")
        if found is not None and found.get("typeface"):
            yield kind, found.get("typeface", "")


def _font(styles: FlatStyles, identity: str, theme: Mapping[str, str]) -> str:
    fonts = styles.properties(identity)[1].get("rFonts")
    themed = theme.get(value(fonts, "asciiTheme")[:5], "")
    return themed or value(fonts, "ascii") or theme.get("minor", "Calibri")
