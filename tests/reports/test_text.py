"""The report shows the place, the sentence, the line with a mark and a hint within 80 columns."""

from lessonkit.reports.text import TextOptions, summary, write_text
from lessonkit.source.finding import Code, Finding, Level, Related
from lessonkit.source.location import Location

CODE = Code("LK999", "cue-too-long", Level.WARNING)
LINE = "  - Keep your paddle as flat as a tray when the ball comes down to you and stay low"


def finding(column: int = 5, end: int = 9) -> Finding:
    """Return a finding on line 7 of a file."""
    return Finding(
        CODE,
        CODE.level,
        "This cue has 17 words; children hear 7 at most.",
        Location("a/b.yaml", 7, column, 7, end),
        hint="Keep the words that help.",
        related=(Related(Location("a/c.yaml", 2, 1, 2, 4), "first written here"),),
    )


def get_line(path: str, number: int) -> str | None:
    """Return the line that the finding stands on."""
    return LINE if (path, number) == ("a/b.yaml", 7) else None


def test_a_finding_is_shown_as_a_person_reads_it() -> None:
    """Place, level and name; sentence; line and mark; hint; related place."""
    shown = write_text([finding()], 3, get_line, TextOptions()).splitlines()

    assert "a/b.yaml:7:5: warning (cue-too-long)" == shown[0]
    assert "  This cue has 17 words; children hear 7 at most." == shown[1]
    assert shown[2].startswith("    7 |   - Keep your paddle")
    assert "      |     ^^^^" == shown[3]
    assert "  Hint: Keep the words that help." == shown[4]
    assert "  See a/c.yaml:2:1: first written here" == shown[5]
    assert "1 warning in 1 of 3 files." == shown[-1]


def test_nothing_is_wider_than_asked() -> None:
    """A mark far to the right moves the shown stretch of the line."""
    shown = write_text([finding(70, 75)], 1, get_line, TextOptions(width=60))

    assert all(len(line) <= 60 for line in shown.splitlines())
    mark = shown.splitlines()[3]
    assert LINE[69:74] == shown.splitlines()[2][mark.index("^") : mark.index("^") + 5]


def test_colour_is_only_used_when_asked() -> None:
    """Escape codes appear with colour alone."""
    assert "\x1b" not in write_text([finding()], 1, get_line, TextOptions())
    assert "\x1b[33m" in write_text([finding()], 1, get_line, TextOptions(colour=True))


def test_a_clean_check_says_so() -> None:
    """The closing sentence counts files."""
    assert "1 file checked: nothing to mend." == summary([], 1)
