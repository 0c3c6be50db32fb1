"""A folder of record files to a library."""

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from lessonkit.loading.file import load_file, load_text
from lessonkit.loading.folder import Loaded, load_folder
from lessonkit.records.library import KINDS
from tests.loading.cases import BASES, base, told

Write = Callable[..., Loaded]


@pytest.fixture
def write(tmp_path: Path) -> Write:
    """Write files into a folder and load it."""

    def write_and_load(**files: str) -> Loaded:
        for name, text in files.items():
            path = tmp_path / name.replace("__", "/").replace("_yaml", ".yaml").replace("_yml", ".yml")
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
        return load_folder(tmp_path, tmp_path.as_posix())

    return write_and_load


def test_record_of_every_kind_is_loaded() -> None:
    """A folder with one record of each kind in order gives a library of them and no finding."""
    loaded = load_folder(BASES, BASES.as_posix())

    assert () == loaded.findings
    assert 10 == loaded.files == len(loaded.records)
    assert set(KINDS) == {record.kind for record in loaded.records}
    assert ["sample-taps"] == list(loaded.library.activities)
    assert ["short-paddle"] == list(loaded.library.items)
    assert {f"{BASES.as_posix()}/{kind}.yaml" for kind in KINDS} == {record.path for record in loaded.records}


def test_records_hold_what_the_file_says() -> None:
    """Lengths, grade bands and grades written as numbers become what they mean."""
    library = load_folder(BASES, BASES.as_posix()).library
    activity = library.activities["sample-taps"]

    assert ("2", "4") == (activity.grades.first, activity.grades.last)
    assert "2" == str(activity.versions[0].grades)
    assert (2.0, "2 m") == (activity.floor.length.metres, activity.floor.length.written)
    # 6 ft 6 in = 6.5 * 0.3048 m (international foot)
    assert 1.9812 == activity.floor.width.metres
    assert "use #1 ball" in activity.steps
    assert "3" == library.schools["sample-school"].classes[0].grade
    assert "10:15" == library.schools["sample-school"].classes[0].meets[0].at
    assert "2027-01-12" == library.units["sample-unit"].lost_days[0]
    assert {"spacing": "high", "variety": "off"} == library.units["sample-unit"].wishes


def test_shipped_frameworks_are_added(write: Write) -> None:
    """The outcome frameworks of the program are in the library, but are no records of the folder."""
    loaded = write(a_yaml=base("skill"))

    assert ["us-pe-2013", "us-pe-2024"] == sorted(loaded.library.frameworks)
    assert ["skill"] == [record.kind for record in loaded.records]


def test_own_framework_stands_in_place_of_the_shipped(write: Write) -> None:
    """A framework of the folder with the id of a shipped one is taken instead of it."""
    own = base("outcomes").replace("id: sample-outcomes", "id: us-pe-2013")
    loaded = write(own_yaml=own)

    assert "Sample outcomes" == loaded.library.frameworks["us-pe-2013"].title
    assert ["us-pe-2013", "us-pe-2024"] == sorted(loaded.library.frameworks)


def test_file_with_an_error_is_left_out_alone(write: Write) -> None:
    """A file with an error is not in the library; the others are."""
    loaded = write(good_yaml=base("skill"), bad_yaml="kind: skill\n")

    assert ["sample-skill"] == list(loaded.library.skills)
    assert 2 == loaded.files
    assert [("bad.yaml", "missing-field")] == [
        (Path(found.location.path).name, found.code.name) for found in loaded.findings
    ]


def test_file_with_advice_only_is_loaded(write: Write) -> None:
    """Advice does not keep a record out."""
    loaded = write(a_yaml=base("skill").replace("summary: Striking", "summary: Use #1 ball"))

    assert ["text-cut-off"] == [found.code.name for found in loaded.findings]
    assert "Use" == loaded.library.skills["sample-skill"].summary


def test_same_id_is_reported_at_both_places(write: Write, tmp_path: Path) -> None:
    """Two records of a kind with one id: the second is reported, with the place of the first; the first stays."""
    again = base("skill").replace("title: Sample skill", "title: Another")
    loaded = write(a_yaml=base("skill"), b__c_yaml=again)
    here = tmp_path.as_posix()
    says = f"The id 'sample-skill' is taken already by the skill in {here}/a.yaml; give this one its own."

    assert (("2:5", "same-id", says, None, "2:5 first used here"),) == told(loaded.findings)
    assert f"{here}/b/c.yaml" == loaded.findings[0].location.path
    assert f"{here}/a.yaml" == loaded.findings[0].related[0].location.path
    assert "Sample skill" == loaded.library.skills["sample-skill"].title


def test_a_copied_folder_is_one_fault(write: Write, tmp_path: Path) -> None:
    """Four skills of a folder that was copied are one finding, that names both folders; three are told one by one."""
    skills = [base("skill").replace("id: sample-skill", f"id: hop-{number}") for number in range(4)]
    files = {f"{folder}__{n}_yaml": text for folder in ("old", "new copy") for n, text in enumerate(skills)}
    found = write(**files).findings
    here = tmp_path.as_posix()

    assert [f"{here}/old/0.yaml"] == [finding.location.path for finding in found]
    assert found[0].says == (
        f"4 ids of the folder '{here}/old' are taken already by records in '{here}/new copy'; "
        "if one of the two is a copy, take it out of the curriculum."
    )
    (tmp_path / "old/3.yaml").unlink()

    assert 3 == len(load_folder(tmp_path, here).findings)


def test_same_id_of_two_kinds_is_no_fault(write: Write) -> None:
    """A school and a skill may have the same id."""
    loaded = write(a_yaml=base("skill"), b_yaml=base("school").replace("id: sample-school", "id: sample-skill"))

    assert () == loaded.findings


def test_other_files_and_closed_folders_are_passed_over(write: Write, tmp_path: Path) -> None:
    """Only .yaml and .yml files count, outside of hidden folders and the folders of programs."""
    (tmp_path / "venv").mkdir()
    (tmp_path / "venv" / "pyvenv.cfg").touch()
    (tmp_path / "notes.txt").write_text("kind: nothing", "utf-8")
    loaded = write(
        **{".venv__a_yaml": "x", "node_modules__a_yaml": "x", "venv__lib__a_yaml": "x", ".hidden_yaml": "x"},
        one_yml=base("skill"),
        deep__er__two_yaml=base("school"),
    )

    assert () == loaded.findings
    assert ["deep/er/two.yaml", "one.yml"] == [
        Path(record.path).relative_to(tmp_path).as_posix() for record in loaded.records
    ]


def test_folder_that_links_to_itself_ends(write: Write, tmp_path: Path) -> None:
    """A link back to a folder on the way is passed over, so that no file is read twice through it."""
    (tmp_path / "round").symlink_to(tmp_path, target_is_directory=True)
    loaded = write(a_yaml=base("skill"))

    assert 1 == loaded.files


def test_file_that_cannot_be_opened_is_reported(write: Write, tmp_path: Path) -> None:
    """A link to nowhere is reported at the file's start, and the rest is read."""
    (tmp_path / "lost.yaml").symlink_to(tmp_path / "nowhere.yaml")
    loaded = write(a_yaml=base("skill"))
    says = "This file cannot be read: No such file or directory."

    assert (("1:1", "unreadable-file", says, None, None),) == told(loaded.findings)
    assert 2 == loaded.files


@pytest.mark.skipif(os.name != "posix", reason="named pipes are a thing of POSIX systems")
def test_pipe_with_the_name_of_a_record_is_passed_over(write: Write, tmp_path: Path) -> None:
    """A named pipe would keep the program waiting for ever; it is no record file."""
    os.mkfifo(tmp_path / "pipe.yaml")

    assert 1 == write(a_yaml=base("skill")).files


def test_one_file_may_stand_for_the_folder() -> None:
    """A single file is loaded under the name it was given by."""
    loaded = load_folder(BASES / "skill.yaml", "my/skill.yaml")

    assert 1 == loaded.files
    assert "my/skill.yaml" == loaded.records[0].path


@pytest.mark.parametrize(("shown", "expected"), [("", "skill.yaml"), (".", "skill.yaml"), ("a/b/", "a/b/skill.yaml")])
def test_paths_start_as_the_user_named_the_folder(shown: str, expected: str, tmp_path: Path) -> None:
    """The paths of records and findings begin with the folder's name as given, with forward slashes."""
    shutil.copy(BASES / "skill.yaml", tmp_path)
    loaded = load_folder(tmp_path, shown)

    assert expected == loaded.records[0].path


def test_files_are_read_in_the_order_of_their_names(write: Write) -> None:
    """Whatever order the disk has, findings come by path, and the earlier path keeps a disputed id."""
    loaded = write(z_yaml="x: [", a_yaml="x: [", m_yaml="x: [")

    assert ["a.yaml", "m.yaml", "z.yaml"] == [Path(found.location.path).name for found in loaded.findings]


def test_digest_stands_for_names_and_contents(tmp_path: Path) -> None:
    """The same files in another folder have the same digest; another name or another word has another."""
    digests = []
    for folder, name, text in [("a", "s", ""), ("b", "s", ""), ("c", "t", ""), ("d", "s", "# more\n")]:
        (tmp_path / folder).mkdir()
        (tmp_path / folder / f"{name}.yaml").write_text(base("skill") + text, "utf-8")
        digests.append(load_folder(tmp_path / folder, folder).digest)

    assert digests[0] == digests[1]
    assert 3 == len(set(digests))


def test_one_file_and_one_text_load_alike() -> None:
    """A file, and its text alone, give the same record."""
    from_file = load_file(BASES / "unit.yaml", "unit.yaml")
    from_text = load_text(base("unit"), "unit.yaml")

    assert from_file == from_text
    assert from_file.record is not None


def test_records_come_out_the_same_on_slow_readers() -> None:
    """The plain YAML reader and schema engine give equal records of every kind."""
    from lessonkit.loading.engines import plain_engine
    from lessonkit.loading.file import load_content
    from lessonkit.loading.nodes import PURE_PARSER

    for kind in KINDS:
        fast = load_text(base(kind), "r.yaml")
        plain = load_content(base(kind).encode(), "r.yaml", PURE_PARSER, plain_engine)

        assert fast == plain
