"""Make a curriculum of any size for measuring: the starter curriculum, with activities put together from its own parts.

Each made activity takes its organisation, equipment and floor from one activity of the starter curriculum and its
cues, questions, words and remarks from others, so that lengths and sorts of values vary as they do in real records.
Texts therefore stand in several records, more often than in a real curriculum; the check shares and looks up equal
lines, so that its figures here are better than they would be where every text is new (about 150 microseconds and four
kilobytes a record).
A curriculum smaller than the starter leaves out whole skills with their units and activities.
Run ``python bench/make_records.py FOLDER NUMBER``. The same number gives the same files.
"""

import re
import shutil
import sys
from pathlib import Path
from random import Random

STARTER = Path(__file__).resolve().parent.parent / "curriculum"
EXCHANGED = (("cues",), ("see_say",), ("questions",), ("words",), ("inclusion",), ("easier", "harder"), ("summary",))
"""Fields that are taken from another activity, those together that must not contradict each other."""
NAMING = ("skills", "builds_on", "pins", "favourites", "exclude", "mastered")
_BLOCK = re.compile(r"^(?=[a-z_]+:)", re.MULTILINE)


def make_records(folder: Path, number: int) -> None:
    """Fill a new folder with a curriculum of ``number`` records."""
    shutil.copytree(STARTER, folder, ignore=shutil.ignore_patterns("plans", ".*"))
    _leave_out(folder, number)
    blocks = [_blocks(path.read_text("utf-8")) for path in sorted((folder / "activities").rglob("*.yaml"))]
    random = Random(number)
    for count in range(number - _count(folder)):
        base = random.choice(blocks)
        name = base["id"].partition(":")[2].strip() + f"-{count}"
        made = {**base, "id": f"id: {name}\n", "title": f"{base['title'].rstrip()} {count}\n"}
        for fields in EXCHANGED:
            donor = random.choice(blocks)
            if all(field in donor and field in made for field in fields):
                made.update((field, donor[field]) for field in fields)
        path = folder / "activities" / f"part-{count % 40}" / f"{name}.yaml"
        path.parent.mkdir(exist_ok=True)
        path.write_text("".join(made.values()), "utf-8")


def _blocks(text: str) -> dict[str, str]:
    return {block.partition(":")[0]: block for block in _BLOCK.split(text) if block and block[0].isalpha()}


def _leave_out(folder: Path, number: int) -> None:
    """Take skills away, each with all that names it, until ``number`` records are left; before that the years.

    So what is left is as whole as the starter: every name leads somewhere, and every aim and step has its activities.
    """
    if _count(folder) <= number:
        return
    for path in (*folder.glob("year*.yaml"), *folder.glob("maps/*.yaml")):
        path.unlink()
    for skill in sorted(folder.glob("skills/*.yaml"), reverse=True):
        if _count(folder) <= number:
            return
        gone = {skill.stem}
        skill.unlink()
        while more := [path for path in sorted(folder.rglob("*.yaml")) if _names(path) & gone]:
            for path in more:
                gone.add(path.stem)
                path.unlink()


def _count(folder: Path) -> int:
    return sum(1 for _ in folder.rglob("*.yaml"))


def _names(path: Path) -> set[str]:
    """Return the words in those fields of a unit or an activity that name other records."""
    blocks = _blocks(path.read_text("utf-8"))
    return {word for field in NAMING if field in blocks for word in re.findall(r"[a-z0-9-]+", blocks[field])}


if __name__ == "__main__":
    make_records(Path(sys.argv[1]), int(sys.argv[2]))
