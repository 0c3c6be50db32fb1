"""The command that puts a plan right: tables, kept files, sentences."""

import shutil
from pathlib import Path

import pytest
import yaml

from lessonkit.cli import main

PLAN = "paddles-grade-3-grade-3-heron"


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a copy of the starter curriculum with one unit and its plan."""
    folder = tmp_path_factory.mktemp("planned") / "school"
    assert 0 == main(["new", "curriculum", str(folder)])
    others = [path for name in ("units", "plans", "maps") for path in folder.glob(f"{name}/*")]
    other_activities = [
        path
        for path in folder.glob("activities/*/*")
        if path.parent.name not in ("closing", "fitness", "moving", "short-paddle")
    ]
    for path in (*others, *other_activities, *folder.glob("year*")):
        if path.name != "paddles-grade-3.yaml":
            path.unlink()
    assert 0 == main(["sequence", str(folder), "--class", "grade-3-heron", "--seconds", "3"])
    return folder


@pytest.fixture
def school(planned: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """Return a curriculum that a test may change."""
    capsys.readouterr()
    return shutil.copytree(planned, tmp_path / "school")


def _file(school: Path) -> Path:
    return school / "plans" / f"{PLAN}.yaml"


def _lessons(school: Path) -> list[dict[str, str]]:
    lessons: list[dict[str, str]] = yaml.load(_file(school).read_text("utf-8"), Loader=yaml.BaseLoader)["lessons"]
    return lessons


def _run(capsys: pytest.CaptureFixture[str], school: Path, *words: str) -> tuple[int, str]:
    code = main(["replan", "--in", str(school), *words])
    said = capsys.readouterr()
    return code, " ".join((said.out + said.err).split())


def test_a_lost_lesson_is_shown_and_then_written(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is written unasked; asked, the old file stays beside the new plan, whose later lessons move by a day."""
    before, content = _lessons(school), _file(school).read_bytes()
    news = ("--taught", "3", "--lost", before[3]["date"])

    code, said = _run(capsys, school, *news)

    assert 0 == code
    assert "No activity changes." in said and "Nothing is written yet" in said
    assert content == _file(school).read_bytes()
    assert 0 == _run(capsys, school, *news, "--write")[0]
    now = _lessons(school)
    assert content == _file(school).with_name(f"{PLAN}.yaml.old").read_bytes()
    assert [each["date"] for each in before[4:]] == [each["date"] for each in now[3:-1]]
    assert [each["activities"] for each in before] == [each["activities"] for each in now]
    assert ["true"] * 3 == [each["taught"] for each in now if "taught" in each]


def test_a_plan_that_was_put_right_passes_the_check(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What happened is in the plan's file: a check finds nothing to mend, and a second replan changes nothing."""
    day = _lessons(school)[4]["date"]
    _run(capsys, school, "--short", f"{day}=20", "--room", f"{day}=field", "--write")

    assert 0 == main(["check", str(school), "--no-cache", "--no-advice"])
    capsys.readouterr()
    assert "Nothing changes." in _run(capsys, school)[1]
    lesson = _lessons(school)[4]
    assert (day, "20", "field") == (lesson["date"], lesson["minutes"], lesson["space"])


def test_each_old_file_gets_a_name_of_its_own(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A second new plan does not take the place of the first old file."""
    days = [each["date"] for each in _lessons(school)]
    for day in days[5:7]:
        _run(capsys, school, "--short", f"{day}=30", "--write")

    assert [f"{PLAN}.yaml", f"{PLAN}.yaml.old", f"{PLAN}.yaml.old-2"] == sorted(
        path.name for path in _file(school).parent.iterdir()
    )


def test_planning_from_nothing_leaves_a_plan_that_has_begun(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """``sequence`` does not replace a plan with lessons taught, and names the command that goes on with it."""
    _run(capsys, school, "--taught", "2", "--short", f"{_lessons(school)[4]['date']}=30", "--write")
    content = _file(school).read_bytes()

    code = main(["sequence", str(school), "--class", "grade-3-heron"])

    assert 1 == code
    assert f"lessonkit replan {PLAN} --in" in " ".join(capsys.readouterr().err.split())
    assert content == _file(school).read_bytes()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--lost", "2027-01-06"), "the plan has no lesson on 2027-01-06; those to come are on 2027-01-05"),
        (("--taught", "9"), "--taught 9: the plan has lessons 1 to 8."),
        (("--short", "2027-01-05"), "--short 2027-01-05: write a day and its minutes, such as 2027-01-14=20."),
        (("--short", "2027-01-05=3"), "from 5 to 180 minutes."),
        (("--room", "attic"), "--room attic: the school has no such space; it has"),
        (("--broken", "short-padle=2"), "the school has no 'short-padle'. Did you mean 'short-paddle'?"),
        (("--broken", "short-paddle"), "write an item and how many, such as short-paddle=4."),
        (("--children", "0"), "--children 0: write a number from 1 to 120."),
        (("--taught", "2", "--lost", "2027-01-05"), "lesson 1 on 2027-01-05 has been taught and stays as it was."),
        (("--same-end",), "--same-end goes with --lost, for a lesson that is not made up for."),
        (("padles-grade-3-grade-3-heron",), "Did you mean 'paddles-grade-3-grade-3-heron'?"),
    ],
)
def test_senseless_news_is_refused_in_a_sentence(
    school: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], says: str
) -> None:
    """A day, item, space or number that cannot be is named, with what would do."""
    code, said = _run(capsys, school, *words)

    assert 2 == code
    assert says in said


def test_without_a_plan_there_is_nothing_to_put_right(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A curriculum without plans says how to make one."""
    shutil.rmtree(school / "plans")

    assert f"make the plans with: lessonkit sequence {school}" in _run(capsys, school)[1]


def test_a_space_that_is_not_there_is_a_sentence(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A space typed wrongly into the plan is an error of the check, and no plan is made from it."""
    path = _file(school)
    path.write_text(path.read_text("utf-8").replace("    space: gym\n", "    space: gim\n", 1), "utf-8")

    code, said = _run(capsys, school)

    assert 2 == code
    assert "the plan names 'gim', which is not there" in said
    assert 1 == main(["check", str(school / "plans"), "--no-cache", "--no-advice"])
    assert "gim" in capsys.readouterr().out


def test_news_typed_into_the_plan_is_checked(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A room written by hand under ``happened`` must be a space of the school."""
    path = _file(school)
    text = path.read_text("utf-8")
    path.write_text(text.replace("lessons:\n  #", "happened:\n  rooms: [{space: attic}]\nlessons:\n  #", 1), "utf-8")

    assert 1 == main(["check", str(school / "plans"), "--no-cache", "--no-advice"])
    assert "'attic'" in capsys.readouterr().out
