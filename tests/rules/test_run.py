"""Rules run over a whole curriculum: deterministic, in reading order, and quiet about what cannot be read."""

import shutil
from pathlib import Path

from lessonkit.loading.folder import Loaded, load_folder
from lessonkit.rules import aim_unserved, cue_too_long, id_twice, reference_unknown, step_without_activity
from lessonkit.rules.run import run_rules
from tests.rules.laying import BASE

ROOT = Path(__file__).parents[2]


def with_file(folder: Path, name: str, text: str) -> Loaded:
    """Load a copy of the usual curriculum with one more file, or another in place of one."""
    shutil.copytree(BASE, folder, dirs_exist_ok=True)
    (folder / name).write_text(text, "utf-8")
    return load_folder(folder, folder.as_posix())


def test_the_same_curriculum_gives_the_same_findings_in_any_order(tmp_path: Path) -> None:
    """Findings come file by file and line by line, whatever order the records came in."""
    text = (
        (BASE / "activity.yaml")
        .read_text("utf-8")
        .replace("cues: [Soft knees]", "cues: [a b c d e f g h]\nquestions: []")
    )
    loaded = with_file(tmp_path, "activity.yaml", text.replace("parts: [practice]", "parts: [closing]"))
    backwards = loaded._replace(records=loaded.records[::-1])

    assert run_rules(loaded) == run_rules(loaded) == run_rules(backwards)
    assert ["question-missing", "cue-too-long"] == [finding.code.name for finding in run_rules(loaded)]


def test_a_finding_carries_its_record_and_field(tmp_path: Path) -> None:
    """The record's id and the path of the field are there for other programs."""
    text = (BASE / "activity.yaml").read_text("utf-8").replace("cues: [Soft knees]", "cues: [Up, a b c d e f g h]")
    (found,) = run_rules(with_file(tmp_path, "activity.yaml", text), (cue_too_long,))

    assert ("paddle-tag", ("cues", 1), "cues, item 2") == (found.record, found.field, found.field_name)


def test_an_item_in_two_catalogues_is_said_at_the_second(tmp_path: Path) -> None:
    """The catalogue that is read first counts, so the other's item is the one that is said."""
    second = "kind: equipment\nid: attic\ntitle: Attic\nitems:\n  - {id: bench, title: bench, plural: benches}\n"
    (found,) = run_rules(with_file(tmp_path, "spare.yaml", second), (id_twice,))

    assert ("spare.yaml", 5) == (Path(found.location.path).name, found.location.line)
    assert ["equipment.yaml"] == [Path(related.location.path).name for related in found.related]


def test_an_aim_is_not_called_unserved_while_an_activity_cannot_be_read(tmp_path: Path) -> None:
    """The activity that cannot be read may be the one that serves it."""
    unit = (BASE / "unit.yaml").read_text("utf-8").replace("S1.E24.3a, practise", "S1.E1.3, practise")
    sound = with_file(tmp_path, "unit.yaml", unit)
    (tmp_path / "over-the-net.yaml").write_text("kind: activity\nid: [", "utf-8")
    broken = load_folder(tmp_path, tmp_path.as_posix())

    assert ["aim-unserved"] * 2 == [finding.code.name for finding in run_rules(sound, (aim_unserved,))]
    assert () == run_rules(broken, (aim_unserved,))


def test_the_shipped_curriculum_has_no_gap_in_a_progression() -> None:
    """Every step between the first and the last that is taught has an activity."""
    assert () == run_rules(load_folder(ROOT / "curriculum", "curriculum"), (step_without_activity,))


def test_items_are_not_missed_while_a_catalogue_cannot_be_read(tmp_path: Path) -> None:
    """One fault in the catalogue would make every item unknown; a skill that is not there is said all the same."""
    text = (BASE / "activity.yaml").read_text("utf-8") + "skills: [{skill: juggling, step: one}]\n"
    lines = text + "equipment: [{item: bench, count: 1, per: class}, {item: sled, count: 1, per: class}]\n"
    sound = run_rules(with_file(tmp_path, "activity.yaml", lines), (reference_unknown,))
    (tmp_path / "equipment.yaml").write_text("kind: equipment\nid: [", "utf-8")
    broken = run_rules(load_folder(tmp_path, tmp_path.as_posix()), (reference_unknown,))

    assert [("skills", 0, "skill"), ("equipment", 1, "item")] == [finding.field for finding in sound]
    assert [("skills", 0, "skill")] == [finding.field for finding in broken if finding.record == "paddle-tag"]
