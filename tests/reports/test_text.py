"""The report shows the place, the sentence, the line with a mark and a hint within 80 columns."""

from hypothesis import given
from hypothesis.strategies import integers, text

from lessonkit.reports.shown_line import cells, stretch
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


def test_a_name_is_never_broken_at_the_end_of_a_line() -> None:
    """A path or an id can be copied whole, even where it is longer than the line or has hyphens."""
    path = "a-folder/with-hyphens/" + "long-name-" * 9 + "end.yaml"
    related = (Related(Location(path, 2, 1, 2, 4), "first written here"),)
    found = Finding(CODE, CODE.level, "word " * 13 + "ladder-of-taps", Location("a.yaml", 7, 5, 7, 9), related=related)
    shown = write_text([found], 1, get_line, TextOptions())

    assert f"{path}:2:1:" in shown
    assert "\n  ladder-of-taps\n" in shown


def test_colour_is_only_used_when_asked() -> None:
    """Escape codes appear with colour alone."""
    assert "\x1b" not in write_text([finding()], 1, get_line, TextOptions())
    assert "\x1b[33m" in write_text([finding()], 1, get_line, TextOptions(colour=True))


def marked(line: str, start: int, end: int, options: TextOptions) -> tuple[str, str]:
    """Return the shown line and its marks, each without the gutter."""
    found = Finding(CODE, CODE.level, "Look.", Location("a.yaml", 1, start, 1, end))
    shown = write_text([found], 1, lambda _path, _number: line, options).splitlines()
    return shown[2][8:], shown[3][8:]


def test_marks_stand_under_wide_letters() -> None:
    """Each of the two letters takes two columns, the accent none (Unicode Annex 11; U+0301 is a nonspacing mark)."""
    assert ("\u4f60\u597d: e\u0301x", "    ^") == marked("\u4f60\u597d: e\u0301x", 3, 4, TextOptions())
    assert "^^^^" == marked("\u4f60\u597d: x", 1, 3, TextOptions())[1]
    assert "       ^" == marked("\u4f60\u597d: e\u0301x", 7, 8, TextOptions())[1]


def test_a_file_cannot_take_over_the_terminal() -> None:
    """An escape code, a change of direction and a line end in a file are shown as signs, never obeyed."""
    line, marks = marked("a\x1b[2J\u202eb\u2028c", 8, 9, TextOptions())

    assert "a\ufffd[2J\ufffdb\ufffdc" == line
    assert "       ^" == marks


def test_a_line_saved_as_utf_16_is_not_shown() -> None:
    """Read as bytes, ASCII in UTF-16 (RFC 2781) has a zero beside every letter: not a line that helps anyone."""
    read = "kind: activity".encode("utf-16-le").decode("latin-1")

    assert "7 | " not in write_text([finding()], 1, lambda *_: read, TextOptions())
    assert "7 | " in write_text([finding()], 1, lambda *_: "kind: \0activity", TextOptions())


def test_ascii_alone_keeps_the_marks_in_place() -> None:
    """Every letter beyond ASCII becomes one letter, so that columns stay right; e with an accent is an e."""
    line, marks = marked("\u201c\u4f60\u00e9\u201d - x", 8, 9, TextOptions(ascii=True))

    assert '"?e" - x' == line
    assert "       ^" == marks
    assert write_text([finding()], 1, lambda *_: "\u00e9", TextOptions(ascii=True)).isascii()


def test_findings_stand_together_by_file() -> None:
    """A report is read file by file, line by line, whatever order the findings came in."""
    places = [Location("b.yaml", 1, 1, 1, 2), Location("a.yaml", 9, 1, 9, 2), Location("a.yaml", 2, 1, 2, 2)]
    findings = [Finding(CODE, CODE.level, "Look.", place) for place in places]
    shown = write_text(findings, 2, lambda *_: None, TextOptions()).splitlines()

    assert ["a.yaml:2:1", "a.yaml:9:1", "b.yaml:1:1"] == [line.split(": ")[0] for line in shown if "warning (" in line]


def test_a_stretch_over_several_lines_is_marked_to_the_end_of_its_first() -> None:
    """The line "  ab" from column 3 on has two letters to mark."""
    found = Finding(CODE, CODE.level, "Look.", Location("a.yaml", 1, 3, 4, 1))
    shown = write_text([found], 1, lambda *_: "  ab", TextOptions()).splitlines()

    assert "      |   ^^" == shown[3]


@given(text(max_size=60), integers(0, 70), integers(0, 30), integers(20, 50))
def test_any_line_is_cut_to_the_room_there_is(line: str, start: int, length: int, room: int) -> None:
    """Neither the line nor its marks take more columns than there are, and what is marked begins in sight."""
    start = min(start, len(line))
    shown, before, marks = stretch(line, start, start + length, room)

    assert cells(shown) <= room
    assert before >= 0 and marks >= 1
    assert before + marks <= room or before >= room - 1


def test_a_very_long_line_is_cut_quickly() -> None:
    """A million letters on one line are shown around the mark."""
    shown, before, marks = stretch("x" * 1_000_000 + "MARK" + "x" * 1_000_000, 1_000_000, 1_000_004, 70)

    assert "MARK" == shown[before : before + marks]


def test_the_closing_sentence_counts_by_level_and_file() -> None:
    """Two errors and a warning in two of 41 files; one piece of advice alone is in the singular."""
    error, advice = Code("LK998", "x", Level.ERROR), Code("LK997", "y", Level.ADVICE)
    found = [
        Finding(error, error.level, "x", Location("a.yaml", 1, 1, 1, 2)),
        Finding(error, error.level, "x", Location("b.yaml", 1, 1, 1, 2)),
        finding(),
    ]

    assert "2 errors, 1 warning in 3 of 41 files." == summary(found, 41)
    single = [Finding(advice, advice.level, "y", Location("a.yaml", 1, 1, 1, 2))]
    assert "1 piece of advice in 1 of 1 file." == summary(single, 1)


def test_a_clean_check_says_so() -> None:
    """The closing sentence counts files."""
    assert "1 file checked: nothing to mend." == summary([], 1)
