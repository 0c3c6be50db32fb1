"""Make a curriculum of any size for measuring: the starter curriculum, with activities put together from its own parts.

Each made activity takes its organisation, equipment and floor from one activity of the starter curriculum and its
cues, questions, words and remarks from others, so that lengths and sorts of values vary as they do in real records.
A curriculum smaller than the starter leaves out activities that no other record names.
Run ``python bench/make_records.py FOLDER NUMBER``. The same number gives the same files.
"""

import re
import shutil
import sys
from pathlib import Path
from random import Random

STARTER = Path(__file__).resolve().parent.parent / "curriculum"
EXCHANGED = ("cues", "see_say", "questions", "words", "inclusion", "easier", "harder", "summary")
_BLOCK = re.compile(r"^(?=[a-z_]+:)", re.MULTILINE)


def make_records(folder: Path, number: int) -> None:
    """Fill a new folder with a curriculum of ``number`` records."""
    shutil.copytree(STARTER, folder, ignore=shutil.ignore_patterns("plans", ".*"))
    blocks = [_blocks(path.read_text("utf-8")) for path in sorted((STARTER / "activities").rglob("*.yaml"))]
    _leave_out(folder, number)
    random = Random(number)
    for count in range(number - sum(1 for _ in folder.rglob("*.yaml"))):
        base = random.choice(blocks)
        name = base["id"].partition(":")[2].strip() + f"-{count}"
        made = {**base, "id": f"id: {name}\n", "title": f"{base['title'].rstrip()} {count}\n"}
        for field in EXCHANGED:
            donor = random.choice(blocks)
            if field in donor and field in made:
                made[field] = donor[field]
        path = folder / "activities" / f"part-{count % 40}" / f"{name}.yaml"
        path.parent.mkdir(exist_ok=True)
        path.write_text("".join(made.values()), "utf-8")


def _blocks(text: str) -> dict[str, str]:
    return {block.partition(":")[0]: block for block in _BLOCK.split(text) if block and block[0].isalpha()}


def _leave_out(folder: Path, number: int) -> None:
    """Take activities away that no other record names, until ``number`` records are left or all are named."""
    texts = {path: path.read_text("utf-8") for path in sorted(folder.rglob("*.yaml"))}
    named = {path: set(re.findall(r"[a-z0-9-]+", text)) for path, text in texts.items()}
    while len(texts) > number:
        free = [path for path in texts if "activities" in path.parts and not _is_named(path, named)]
        if not free:
            return
        for path in free[: len(texts) - number]:
            path.unlink()
            del texts[path], named[path]


def _is_named(path: Path, named: dict[Path, set[str]]) -> bool:
    return any(path.stem in words for other, words in named.items() if other != path)


if __name__ == "__main__":
    make_records(Path(sys.argv[1]), int(sys.argv[2]))
