"""Silences: remarks in records and the settings file; each does what it says, or is itself a finding."""

from collections.abc import Callable
from pathlib import Path

import pytest

from lessonkit.loading.folder import load_folder
from lessonkit.rules.run import run_rules
from lessonkit.rules.silence import CODES_OF_SILENCE, apply_silence, explain
from lessonkit.source.finding import Code, Finding, Level
from tests.rules.laying import BASE, laid

CUES = "cues:\n  - Eyes on the ball and knees very bent today please\n"
LONG = 2
"""Line of the cue over seven words, when the cues stand first."""
Check = Callable[..., list[tuple[str, str, int]]]


def _findings(folder: Path) -> tuple[Finding, ...]:
    loaded = load_folder(folder, folder.as_posix())
    return apply_silence((*loaded.findings, *run_rules(loaded)), loaded)


@pytest.fixture
def check(tmp_path: Path) -> Check:
    """Check a curriculum whose one activity begins with some lines and has some settings."""

    def checked(lines: str, settings: str = "") -> list[tuple[str, str, int]]:
        for path in BASE.iterdir():
            text = laid(lines, "activity") if path.name == "activity.yaml" else path.read_text("utf-8")
            (tmp_path / path.name).write_text(text, "utf-8")
        (tmp_path / "plan.yaml").unlink()
        if settings:
            (tmp_path / "lessonkit.yaml").write_text(
                f"kind: settings\nid: ours\ntitle: Ours\nrules:{settings}", "utf-8"
            )
        found = _findings(tmp_path)
        return [(one.code.name, one.level.value, one.location.line) for one in found]

    return checked


def test_without_a_silence_the_rule_speaks(check: Check) -> None:
    """The cue of nine words is what the other tests here silence (the rule takes seven)."""
    assert [("cue-too-long", "warning", LONG)] == check(CUES)


@pytest.mark.parametrize(
    "lines",
    [
        CUES.rstrip("\n") + " # lessonkit: allow cue-too-long because it rhymes\n",
        CUES.replace("  - ", "  # lessonkit: allow cue-too-long because it rhymes\n  - "),
        CUES.replace("  - ", "  # lessonkit: allow cue-too-long because it rhymes\n  # and they like it\n\n  - "),
        "# lessonkit: allow cue-too-long because it rhymes\n" + CUES,
        "# ours\n# LessonKit: Allow cue-too-long because: it rhymes\n\n" + CUES,
    ],
    ids=["on the line", "above", "above with a comment between", "in the head", "in the head, other letters"],
)
def test_a_remark_silences(check: Check, lines: str) -> None:
    """On the line of the finding, above it, or in the head of the file; nothing else is said."""
    assert [] == check(lines)


@pytest.mark.parametrize(
    ("remark", "code"),
    [
        ("allow cue-too-long", "silence-without-reason"),
        ("allow cue-too-long because", "silence-without-reason"),
        ("allow cue-too-long because ...", "silence-without-reason"),
        ("allow cue-to-long because it rhymes", "silence-unknown"),
        ("allow not-yaml because we like it", "silence-unknown"),
        ("allow", "silence-unknown"),
        ("allow because it rhymes", "silence-unknown"),
        ("ignore cue-too-long", "silence-unknown"),
        ("", "silence-unknown"),
        ("allow question-missing because it rhymes", "silence-unused"),
    ],
)
def test_a_remark_that_does_not_work_is_a_finding(check: Check, remark: str, code: str) -> None:
    """It is said at the remark, and the rule goes on speaking (a warning: the check must not pass unseen)."""
    found = check(CUES.replace("cues:", f"cues:  # lessonkit: {remark}"))

    assert [(code, "warning", 1), ("cue-too-long", "warning", LONG)] == found


def test_a_remark_inside_a_text_is_text(check: Check) -> None:
    """The sign of a comment inside a block of text or in quotes starts no comment (YAML 1.2.2, 6.6 and 8.1)."""
    quoted = "  - 'Bend # lessonkit: allow cue-too-long because it rhymes'\n"
    found = check(CUES + quoted)

    assert [("cue-too-long", LONG), ("cue-too-long", LONG + 1)] == [(one[0], one[2]) for one in found]


def test_a_remark_below_does_not_reach_up(check: Check) -> None:
    """A remark on the line after the finding is about the line after it."""
    found = check(CUES + "# lessonkit: allow cue-too-long because it rhymes\n")

    assert ["cue-too-long", "silence-unused"] == [one[0] for one in found]


@pytest.mark.parametrize("level", ["error", "warning", "advice"])
def test_settings_weigh_a_rule(check: Check, level: str) -> None:
    """The finding stays, at the level of the settings."""
    settings = f"\n  cue-too-long: {{level: {level}, because: our choice}}\n"

    assert [("cue-too-long", level, LONG)] == check(CUES, settings)


def test_settings_silence_a_rule(check: Check) -> None:
    """A rule that is off says nothing anywhere; a remark about it is still needed for nothing else."""
    assert [] == check(CUES, "\n  cue-too-long: {level: off, because: our choice}\n")


def test_settings_that_silence_nothing_are_a_finding(check: Check) -> None:
    """A rule that is off and broken nowhere, and one that does not exist, are said at their line of the settings."""
    found = check(
        CUES,
        "\n  cue-too-long: {level: off, because: our choice}\n"
        "  question-missing: {level: off, because: our choice}\n"
        "  cue-to-long: {level: off, because: our choice}\n"
        "  not-yaml: {level: off, because: our choice}\n",
    )

    assert [("silence-unused", 6), ("silence-unknown", 7), ("silence-unknown", 8)] == [
        (one[0], one[2]) for one in found
    ]


def test_settings_need_a_reason(check: Check) -> None:
    """Without a reason the settings cannot be read, so the rule speaks."""
    found = check(CUES, "\n  cue-too-long: {level: off}\n")

    assert [("cue-too-long", "warning"), ("missing-field", "error")] == [one[:2] for one in found]


def test_a_second_settings_file_is_a_finding(check: Check, tmp_path: Path) -> None:
    """The one nearest to the top counts."""
    folder = tmp_path / "activities"
    folder.mkdir()
    (folder / "a.yaml").write_text("kind: settings\nid: other\ntitle: Other\nrules: {}\n", "utf-8")
    found = check(CUES, "\n  cue-too-long: {level: off, because: our choice}\n")

    assert [("settings-twice", "warning", 1)] == found


def test_nothing_is_called_useless_while_a_record_is_broken(check: Check, tmp_path: Path) -> None:
    """Rules hold back where a record cannot be read, so a silence may seem to be without use."""
    (tmp_path / "broken.yaml").write_text("kind: [", "utf-8")
    found = check("# lessonkit: allow reference-unknown because it comes\n" + CUES)

    assert ["cue-too-long", "not-yaml"] == [one[0] for one in found]


@pytest.mark.parametrize("code", CODES_OF_SILENCE, ids=lambda code: code.name)
def test_every_finding_has_a_page(code: Code) -> None:
    """By its name and by its number."""
    page = explain(code.name)

    assert explain(code.number) == page
    assert page is not None
    assert page.startswith(f"{code.name} ({code.number}, {Level.WARNING.value})")
