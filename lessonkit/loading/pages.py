"""The page of every kind of finding that loading makes: what it finds, why it matters, what fails and what passes."""

from typing import Final

from lessonkit.loading import codes
from lessonkit.source.finding import Code

_PAGES: Final[dict[Code, str]] = {
    codes.UNREADABLE: """A file or folder cannot be opened.

It may have been moved or renamed while the program ran, a link may lead nowhere, or you may not have leave to read it.
A text editor may also have put `.txt` behind `.yaml`; call the file by its name without it.
""",
    codes.ENCODING: """A file is not saved as UTF-8.

Letters such as é come out wrong, or not at all, where a program has to guess how a file was saved.
Choose UTF-8 in the window in which your text editor saves the file.
""",
    codes.TOO_LARGE: """A file has more than 1 MiB.

The largest framework of outcomes has about a fifth of it, so such a file is no record.
""",
    codes.UNSEEN: """A character that cannot be seen stands in a file, or an indent is not made of spaces.

They come along when text is copied from web pages and slides, and some programs count them as the end of a line.
Delete the character, or type the indent of the line again.
""",
    codes.EMPTY: """A file holds nothing, or only comments.

Fails:

    # kind: skill

Passes:

    kind: skill
""",
    codes.SYNTAX: """A line cannot be read as YAML: its indent, a colon, a bracket or quotes are in the way.

The rest of the file is not looked at until the line is mended.

Fails:

    title: Warm up: tag

Passes:

    title: "Warm up: tag"
""",
    codes.DUPLICATE_FIELD: """A field stands twice in one place.

Only one of them can count, and programs differ in which.

Fails:

    title: Tap up
    title: Tap down

Passes:

    title: Tap up
""",
    codes.TAG: """A text begins with an exclamation mark, or fields are brought in with <<.

Both are orders to programs in YAML, and records have no use for them.

Fails:

    title: !Go

Passes:

    title: "!Go"
""",
    codes.ALIAS: """Copies with & and * make a file far larger than it looks.

A record may copy a little text this way; a thousand copied values are the limit.
Write the text out.
""",
    codes.DEPTH: """Lists and fields are nested more than 64 deep.

No record needs that; a bracket was most likely typed too often.
""",
    codes.SEVERAL: """A second record begins in a file.

A finding, a link and a pinned activity lead to a file, so each record has one of its own.

Fails:

    kind: skill
    ---
    kind: skill

Passes:

    kind: skill
""",
    codes.NUMBER: """A number begins with a zero.

Programs differ in what it means: 010 is ten to some and eight to others.

Fails:

    year: 010

Passes:

    year: 10
""",
    codes.FIELD_NAME: """The name of a field is a list or a set of fields in brackets.

A text that begins with a bracket needs quotes.

Fails:

    title: {{name}}

Passes:

    title: "{{name}}"
""",
    codes.CUT_OFF: """A text has a # after a space, and what follows is left out as a comment.

A comment on purpose has a space after its #, and is not reported.

Fails:

    summary: Use #1 ball for every child.

Passes:

    summary: "Use #1 ball for every child."
""",
    codes.NO_KIND: """A file does not say what kind of record it is.

Everything else is looked at in the light of the kind.

Fails:

    title: Tap up

Passes:

    kind: skill
    title: Tap up
""",
    codes.UNKNOWN_KIND: """A record is not an activity, equipment, outcomes, plan, school, skill or unit.

Fails:

    kind: drill

Passes:

    kind: activity
""",
    codes.UNKNOWN_FIELD: """A field is not known here: it is misspelled, belongs elsewhere, or a comma cut a text.

It would be left out of lessons and binders without a word.

Fails:

    sumary: Striking with a short paddle.

Passes:

    summary: Striking with a short paddle.
""",
    codes.MISSING_FIELD: """A field that every record of the kind needs is not there.

Fails:

    steps:
      - {id: carry, title: Carry}

Passes:

    steps:
      - {id: carry, title: Carry, means: Walks with a ball resting on the paddle.}
""",
    codes.WRONG_VALUE: """A value is not of the sort, the size or the spelling that its field accepts.

The sentence says what is accepted there.

Fails:

    family: manipulation

Passes:

    family: manipulative
""",
    codes.WRONG_COUNT: """A list has too few items or too many.

Fails:

    steps: []

Passes:

    steps:
      - {id: carry, title: Carry, means: Walks with a ball resting on the paddle.}
""",
    codes.SAME_ID: """Two records of a kind have the same id.

Other records name a record by its kind and id, and would not know which of the two is meant.
The one whose file has the id as its name is used, else the one that comes first.
A folder that was copied with its records is told once; take the copy out of the curriculum.
""",
}


def explain(name: str) -> str | None:
    """Return the page of a kind of finding by its name or number, headed by both; None for one that does not exist."""
    for code, page in _PAGES.items():
        if name.lower() in (code.name, code.number.lower()):
            return f"{code.name} ({code.number}, {code.level.value})\n\n{page.strip()}"
    return None
