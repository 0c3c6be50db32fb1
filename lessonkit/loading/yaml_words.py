"""What went wrong in a line of YAML, in a teacher's words."""

import re
from typing import Final

_COLON: Final = re.compile(r"^\s*(?:- )?[\w-]+: [^'\"#|>]*: ")

_SENTENCES: Final = (
    ("found character '\\t'", "This line starts with a tab; use spaces to indent.", None),
    (
        "mapping values are not allowed",
        "A colon cannot stand here.",
        "If it belongs to the text, put the text in quotes.",
    ),
    (
        "could not find expected ':'",
        "This line should be a field with a colon, such as title: Ladder of Taps.",
        "Indent it further if it goes on from the line above.",
    ),
    (
        "expected <block end>",
        "This line does not line up with the lines it belongs to.",
        "Check its indent against the lines above.",
    ),
    ("did not find expected key", "This line does not line up with the fields above it.", "Check its indent."),
    (
        "did not find expected '-' indicator",
        "This line does not line up with the list above it.",
        "Check its indent, and the dash.",
    ),
    ("did not find expected ',' or", "A comma or a closing bracket is missing here.", None),
    ("expected ',' or", "A comma or a closing bracket is missing here.", None),
    ("found unexpected end of stream", "The file ends in the middle of a text in quotes.", "Close the quotes."),
    ("found unexpected document indicator", "Three dashes or dots stand inside a text in quotes here.", None),
    (
        "found undefined alias",
        "The mark * stands for a copy of something that is not in this file.",
        "Put the text in quotes.",
    ),
    ("found unknown escape character", "A backslash in double quotes has a special meaning.", "Use single quotes."),
    ("found character that cannot start", "A text cannot begin with this sign.", "Put the text in quotes."),
    ("did not find expected alphabetic", "A text cannot begin with this sign.", "Put the text in quotes."),
    ("did not find expected node content", "Something is missing here: a value, or a closing bracket.", None),
    (
        "block sequence entries are not allowed",
        "A list cannot start on this line.",
        "Put the dash on a line of its own.",
    ),
    ("found duplicate anchor", "The same & mark is used twice.", "Put the text in quotes."),
)


def explain_syntax(problem: str, context: str, text: str, line: int) -> tuple[str, str | None]:
    """Return a sentence and, where there is one, a hint for a complaint of the YAML reader at a line (from 1)."""
    lines = re.split("\r\n|\r|\n", text)
    written = lines[line - 1] if line <= len(lines) else ""
    if "mapping values are not allowed" in problem and _COLON.match(written):
        return (
            "A second colon with a space after it stands in this line.",
            "Put the text after the first colon in quotes.",
        )
    if "quoted scalar" in context and "end of stream" in problem:
        return "A text in quotes is not closed.", "Put the closing quote at the end of the text."
    for known, says, hint in _SENTENCES:
        if known in problem:
            return says, hint
    if "\t" in written[: len(written) - len(written.lstrip())]:
        return "This line starts with a tab; use spaces to indent.", None
    return "This line cannot be read as YAML.", "Check its indent, its colon and its quotes."
