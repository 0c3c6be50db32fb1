"""Annotation lines have the form that a GitHub workflow reads."""

from lessonkit.reports.github import write_github
from tests.reports.sample import ERROR, FINDINGS, WARNING


def test_a_finding_is_one_line_with_its_place() -> None:
    """Command, properties, words (source: "Workflow commands for GitHub Actions", setting a warning message)."""
    expected = (
        "::warning file=curriculum/a.yaml,line=7,endLine=7,col=5,endColumn=9,title=cue-too-long (LK251)"
        "::This cue has 17 words; children hear 7 at most.%0AKeep the words that help.\n"
    )

    assert expected == write_github([WARNING])


def test_columns_are_left_out_where_the_lines_differ() -> None:
    """Columns cannot be sent then (source: properties of annotations in GitHub's own toolkit)."""
    assert "line=3,endLine=4,title=" in write_github([ERROR])


def test_what_ends_a_value_is_escaped() -> None:
    """Percent, line ends, and in properties colons and commas (source: the toolkit's escapes, as read in two ports)."""
    lines = write_github(FINDINGS).splitlines()

    assert 3 == len(lines)
    assert ["error", "warning", "notice"] == [line[2:].partition(" ")[0] for line in lines]
    assert "100%25 wrong:%0Ano outcome." in lines[0]
    assert "file=curriculum/skills/p\u00e4ddle 100%25.yaml," in lines[2]


def test_nothing_found_is_nothing_written() -> None:
    """A workflow shows annotations only where there is something to mend."""
    assert write_github([]) == ""
