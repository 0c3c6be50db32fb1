"""A command that the program names can be copied into a shell as it stands, and does what was promised."""

import io
import re
import shlex
import shutil
import subprocess
from pathlib import Path

import pytest

from lessonkit.cli import main
from lessonkit.commands.calls import call, pasted
from lessonkit.commands.terminal import Terminal

SCHOOL = Path(__file__).parents[1] / "cases" / "slips" / "curriculum"
PLAN = "paddles-grade-3-grade-3-heron"
ODD = (
    "plain",
    "my school",
    "it's ours",
    'a "quoted" one',
    "$HOME",
    "ours!",
    "(new)",
    "a&b",
    "Früh\\jahr",
    "a;b",
    "~",
    "*",
)
_COMMAND = re.compile(r"lessonkit [a-z].*")


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not installed")
def test_a_shell_takes_every_name_for_one_word() -> None:
    """What bash makes of a pasted name is the name (source: bash itself); a plain one has no quotes."""
    words = " ".join(pasted(word) for word in ODD)
    said = subprocess.run(["bash", "-c", f"printf '%s\\n' {words}"], capture_output=True, text=True, check=True)

    assert list(ODD) == said.stdout.splitlines()
    assert "plain" == pasted("plain")
    assert "school" == pasted("school\\")


def test_a_command_is_never_folded() -> None:
    """It stands on one line of the narrowest terminal, with plain spaces."""
    out = io.StringIO()
    Terminal(out, io.StringIO(), {"COLUMNS": "40"}).tell(
        f"Put it right with: {call('replan a-long-plan', 'my school')}"
    )

    assert '  lessonkit replan a-long-plan --in "my school"' == out.getvalue().splitlines()[-1]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["why", PLAN, "--in", "my school"], 0),
        (["show", "grade-3-heron", "--in", "my school"], 0),
        (["show", "zzz", "--in", "my school"], 0),
        (["why", "x", "--in", "empty one"], 0),
        (["export", "my school", "--plan", PLAN, "--as", "calendar"], 1),
    ],
)
def test_a_named_command_does_what_was_promised(
    words: list[str],
    code: int,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It works on the folder that was named, blanks and all; one unit that is broken has an error to see."""
    shutil.copytree(SCHOOL, tmp_path / "my school")
    (tmp_path / "my school/units/wrong.yaml").write_text("kind: unit\nid: wrong\naims: [\n", "utf-8")
    ropes = (SCHOOL / "activities/ropes-awake.yaml").read_text("utf-8")
    other = re.sub("(?m)^grades: .*", "grades: K", ropes.replace("id: ropes-awake", "id: ropes-asleep", 1))
    (tmp_path / "my school/activities/ropes-asleep.yaml").write_text(other, "utf-8")
    (tmp_path / "empty one").mkdir()
    monkeypatch.chdir(tmp_path)
    main(words)
    said = capsys.readouterr()
    (named,) = _COMMAND.findall(said.out + said.err)

    assert code == main(shlex.split(named)[1:])
