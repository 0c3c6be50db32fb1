"""What went wrong in a line of YAML, in a teacher's words.

The two YAML readers complain in slightly different words; what is said here is the same for both, because it rests on
the kind of complaint and on the text around it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, NamedTuple

from lessonkit.loading.dashes import NO_DASH, way_to_dash
from lessonkit.source.pattern import Pattern

_QUOTES: Final = "'\""
_OUT_OF_LINE: Final = ("did not find expected key", "did not find expected '-'", "<block end>", "<document start>")
_SCALAR_STARTS: Final = "@`%*&!?|>,]}"
_MERGE_MARKS: Final = ("<<<<<<<", "=======", ">>>>>>>")
_STUCK: Final = Pattern(r" *-(\{|[a-z_]+:)")
_LONG: Final = 3
"""Words from which on a line without a colon is rather a text than the name of a field."""


class Explained(NamedTuple):
    """A sentence, a hint where there is one, and the line and column (from 1) to show."""

    says: str
    hint: str | None
    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Trouble:
    """A complaint of the YAML reader: its words, where it stopped, where the piece began (lines, columns from 1)."""

    problem: str
    context: str
    stop: tuple[int, int]
    start: tuple[int, int]
    lines: tuple[str, ...]

    def line(self, number: int) -> str:
        """Return the text of a line, empty past the end of the file."""
        return self.lines[number - 1] if 1 <= number <= len(self.lines) else ""

    @property
    def before(self) -> str:
        """The text of the line up to where the reader stopped."""
        return self.line(self.stop[0])[: self.stop[1] - 1]

    @property
    def after(self) -> str:
        """The rest of that line."""
        return self.line(self.stop[0])[self.stop[1] - 1 :]

    @property
    def opening(self) -> str:
        """The text from where the piece began to the end of its line."""
        return self.line(self.start[0])[self.start[1] - 1 :]

    def has(self, *words: str) -> bool:
        """Tell whether the complaint holds one of some words."""
        return any(word in self.problem for word in words)


def explain_syntax(trouble: Trouble) -> Explained:
    """Return what a teacher should read about a complaint of the YAML reader."""
    for explain in _EXPLANATIONS:
        explained = explain(trouble)
        if explained:
            return explained
    return Explained("This line cannot be read as YAML.", "Check its indent, its colon and its quotes.", *trouble.stop)


def _tab(trouble: Trouble) -> Explained | None:
    line = trouble.line(trouble.stop[0])
    indent = line[: len(line) - len(line.lstrip())]
    if "\t" not in indent or not trouble.has("cannot start any token", "tab character", *_OUT_OF_LINE):
        return None
    return Explained("This line is indented with a tab; use spaces.", None, trouble.stop[0], indent.index("\t") + 1)


def _stuck_dash(trouble: Trouble) -> Explained | None:
    """Explain fields of a list's item behind a dash without its space: on the line itself, or on the one above."""
    if not trouble.has("mapping values are not allowed", *_OUT_OF_LINE):
        return None
    number = trouble.stop[0]
    for each in (number, number - 1):
        line = trouble.line(each)
        fields = _indent(trouble.line(number)) > _indent(line) if each < number else line.lstrip().startswith("-{")
        if fields and _STUCK.match(line):
            return Explained(NO_DASH, way_to_dash("-", ""), each, _indent(line) + 1)
    return None


def _second_colon(trouble: Trouble) -> Explained | None:
    if not trouble.has("mapping values are not allowed"):
        return None
    field, colon, text = trouble.line(trouble.stop[0]).partition(": ")
    if colon and len(field) < trouble.stop[1] - 1:
        quoted = _in_quotes(text.strip().strip("\u201c\u201d\u201e"))
        hint = f"Put the text in straight quotes: {field.strip().removeprefix('- ')}: {quoted}"
        return Explained("A second colon with a space after it stands in this line.", hint, *trouble.stop)
    above = _line_without_colon(trouble)
    if above is not None:
        field_of_text = _field_of_text(trouble, above)
        if field_of_text is not None:
            name = trouble.line(field_of_text).strip()
            says = "The text below this field has several lines, so the field needs an upright stroke."
            return Explained(says, f"Write {name} |", field_of_text, _indent(trouble.line(field_of_text)) + 1)
        return Explained("This line is not a field: it has no colon.", None, above, _indent(trouble.line(above)) + 1)
    number = trouble.stop[0] - 1
    line, above_that = trouble.line(number), trouble.line(number - 1)
    if line.strip() and _indent(line) < _indent(above_that) == _indent(trouble.line(trouble.stop[0])):
        says = "This line has lost its indent; the lines around it stand further in."
        return Explained(says, "Give it the indent of the lines around it.", number, _indent(line) + 1)
    return Explained(
        "This line is indented further than the field above it, which already has its text.",
        "Line it up with the field above, or put the whole text in quotes.",
        *trouble.stop,
    )


def _line_without_colon(trouble: Trouble) -> int | None:
    """Return the number of the line above, where it has the same indent and no colon: the field's name lost it."""
    number = trouble.stop[0] - 1
    while number > 0 and not trouble.line(number).split("#")[0].strip():
        number -= 1
    above = trouble.line(number)
    alike = _indent(above) == _indent(trouble.line(trouble.stop[0]))
    return number if alike and above.strip() and ":" not in above and not above.lstrip().startswith("-") else None


def _field_of_text(trouble: Trouble, number: int) -> int | None:
    """Return the line of the field without a text of its own above some lines of prose, None where there is none."""
    indent = _indent(trouble.line(number))
    if len(trouble.line(number).split()) <= _LONG:
        return None
    while number > 1 and _indent(trouble.line(number)) >= indent:
        number -= 1
    above = trouble.line(number).rstrip()
    return number if above.endswith(":") and not above.lstrip().startswith("-") else None


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _in_quotes(text: str) -> str:
    return f'"{text}"' if '"' not in text and "\\" not in text else "'" + text.replace("'", "''") + "'"


def _tight_colon(trouble: Trouble) -> Explained | None:
    if not trouble.has("unexpected ':'"):
        return None
    hint = "Put a space after it; or put the text in quotes, if the colon belongs to it."
    return Explained("A colon cannot stand right before a comma or a bracket.", hint, *trouble.stop)


def _no_colon(trouble: Trouble) -> Explained | None:
    if not trouble.has("could not find expected ':'"):
        return None
    name, colon, _ = trouble.opening.partition(":")
    if colon and " " not in name:
        glued = trouble.opening[len(name) + 1 :].startswith("\u00a0")
        hint = "What stands there is a space that does not break; type a plain one." if glued else None
        says = "A space is missing after the colon here."
        return Explained(says, hint, trouble.start[0], trouble.start[1] + len(name))
    return _in_a_list(trouble) or Explained(
        "This line is not a field: it has no colon.",
        "If it goes on from the line above, indent it further.",
        *trouble.start,
    )


def _in_a_list(trouble: Trouble) -> Explained | None:
    """Explain a line of a list without its dash: the line above has one at the same indent."""
    line, above = trouble.line(trouble.start[0]), trouble.line(trouble.start[0] - 1)
    if _indent(line) != _indent(above) or not above.lstrip().startswith("- "):
        return None
    otherwise = "Begin it with a dash and a space; or indent it further, if it goes on from the line above."
    return Explained(NO_DASH, way_to_dash(line.lstrip(), otherwise), *trouble.start)


def _merge_marks(trouble: Trouble) -> Explained | None:
    for number, line in enumerate(trouble.lines, 1):
        if line.startswith(_MERGE_MARKS[0]):
            says = "Two versions of this file meet here, with the marks that version control put between them."
            hint = "Keep the lines of one version and delete the marks {}, {} and {}.".format(*_MERGE_MARKS)
            return Explained(says, hint, number, 1)
    return None


def _open_quotes(trouble: Trouble) -> Explained | None:
    if not trouble.has("unexpected end of stream", "unexpected document"):
        return None
    return Explained("The quotes that open here are never closed.", None, *trouble.start)


def _open_brackets(trouble: Trouble) -> Explained | None:
    if trouble.has("',' or"):
        if trouble.stop[0] != trouble.start[0]:
            return Explained("The bracket that opens here is not closed on its line.", None, *trouble.start)
        if trouble.after.startswith(":"):
            hint = "Put a comma before the next field, or quotes around the text between the commas."
            return Explained("A second colon stands in this text.", hint, *trouble.stop)
        return Explained(
            "A comma is missing here, or the text in front needs quotes around the whole of it.", None, *trouble.stop
        )
    if trouble.has("node content") and not trouble.after.strip() and _is_end(trouble):
        last = max(number for number, line in enumerate(trouble.lines, 1) if line.strip())
        return Explained("The file ends before a bracket is closed.", None, last, len(trouble.line(last).rstrip()))
    return None


def _is_end(trouble: Trouble) -> bool:
    return not any(line.strip() for line in trouble.lines[trouble.stop[0] :])


def _ended_early(trouble: Trouble) -> Explained | None:
    """Explain text after closing quotes or brackets, where only the end of the line was possible."""
    if not trouble.has(*_OUT_OF_LINE):
        return None
    before, after = trouble.before.rstrip(), trouble.after
    if after[:1] in ("]", "}"):
        return Explained("There is one closing bracket too many here.", None, *trouble.stop)
    if before[-1:] in ("]", "}"):
        hint = "Put the whole text in quotes if it begins with a bracket."
        return Explained("The brackets are closed before this text.", hint, *trouble.stop)
    if not before or before[-1] not in _QUOTES:
        return None
    if before.count(before[-1]) % 2:
        return _opened_above(trouble, before[-1])
    hint = "Use single quotes around the whole text, or take the quotes away."
    if before[-1] == "'":
        hint = "Use double quotes around a text with an apostrophe in it."
    return Explained("The quotes are closed before this text.", hint, *trouble.stop)


def _opened_above(trouble: Trouble, quote: str) -> Explained:
    """Explain quotes that were left open: the nearest line above with an odd number of them opens them."""
    for number in range(trouble.stop[0] - 1, 0, -1) if quote == '"' else ():
        line = trouble.line(number)
        if line.count(quote) % 2:
            return Explained(
                "The quotes that open here are not closed on this line.", None, number, line.rindex(quote) + 1
            )
    says = "The quotes that close here were opened on a line above."
    return Explained(says, "Close them on the line where they open.", *trouble.stop)


def _first_sign(trouble: Trouble) -> Explained | None:
    """Explain a text that begins with a sign that means something else to YAML."""
    for place in (trouble.start, trouble.stop):
        sign = trouble.line(place[0])[place[1] - 1 : place[1]]
        if trouble.has("comment or line break", "comment or a line break", "chomping") and sign in ("|", ">"):
            hint = "Start the text on the next line; or put it in quotes, if the sign belongs to it."
            return Explained(f"Nothing may follow {sign} on its line.", hint, *place)
        if sign and sign in _SCALAR_STARTS and not trouble.has(*_OUT_OF_LINE):
            return Explained(f"A text cannot begin with {sign} here.", "Put the text in quotes.", *place)
    return None


def _directive(trouble: Trouble) -> Explained | None:
    for number, line in enumerate(trouble.lines[: trouble.stop[0]], 1):
        if line.startswith("%"):
            return Explained("A line cannot begin with %.", "Put the text in quotes.", number, 1)
    return None


def _backslash(trouble: Trouble) -> Explained | None:
    if "quoted" not in trouble.context or not trouble.has("escape", "hexdecimal", "hexadecimal"):
        return None
    column = trouble.line(trouble.stop[0]).rfind("\\", 0, trouble.stop[1]) + 1
    hint = "Use single quotes around the text, or write the backslash twice."
    return Explained(
        "A backslash in double quotes has a special meaning.", hint, trouble.stop[0], column or trouble.stop[1]
    )


def _list_on_line(trouble: Trouble) -> Explained | None:
    if not trouble.has("sequence entries are not allowed"):
        return None
    hint = "Start every dash on a line of its own; put the text in quotes if the dash belongs to it."
    return Explained("A list cannot start on the line of its field.", hint, *trouble.stop)


def _out_of_line(trouble: Trouble) -> Explained | None:
    if not trouble.has(*_OUT_OF_LINE):
        return None
    if trouble.after.startswith("-"):
        hint = "Give it the indent of the other dashes of its list."
        return Explained("This dash does not line up with the lines above it.", hint, *trouble.stop)
    hint = "Give it the indent of the fields it belongs with."
    return Explained("This line does not line up with the lines above it.", hint, *trouble.stop)


_EXPLANATIONS: Final[tuple[Callable[[Trouble], Explained | None], ...]] = (
    _merge_marks,
    _directive,
    _tab,
    _stuck_dash,
    _second_colon,
    _no_colon,
    _tight_colon,
    _open_quotes,
    _open_brackets,
    _backslash,
    _list_on_line,
    _ended_early,
    _first_sign,
    _out_of_line,
)
