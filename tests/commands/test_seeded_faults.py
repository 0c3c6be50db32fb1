"""Three hundred slips in the shipped records, drawn by lot: each is found at its line, and starts no flood.

The slips are those of people who type: letters exchanged in a field's name, an indent one space off, a tab, grades the
wrong way round, a code that does not exist, a length without its unit, a number in words, a lost colon or bracket.
"""

import re
import shutil
from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest

from lessonkit.commands.checking import findings_of
from lessonkit.loading.file import load_file
from lessonkit.loading.folder import Loaded, load_folder
from lessonkit.loading.nodes import MappingNode, Node, ScalarNode, compose
from lessonkit.records.library import build_library
from lessonkit.source.finding import Finding
from lessonkit.source.shipped import shipped_folder

MOST = 3
"""Findings that one slip may give."""
EACH = 25
"""Slips of each sort."""
Slip = Callable[[list[str], Random, list[int]], tuple[int, str] | None]
"""Takes the lines of a record, the lot, and the numbers of lines that hold fields; gives a line and its new text."""


def _lines_like(pattern: str, change: Callable[[re.Match[str], Random], str]) -> Slip:
    def slip(lines: list[str], random: Random, fields: list[int]) -> tuple[int, str] | None:
        found = [(number, match) for number in fields if (match := re.search(pattern, lines[number]))]
        if not found:
            return None
        number, match = random.choice(found)
        line = lines[number]
        return number, line[: match.start()] + change(match, random) + line[match.end() :]

    return slip


def _exchanged(match: re.Match[str], random: Random) -> str:
    word = match.group(1)
    place = random.choice([place for place in range(len(word) - 1) if word[place] != word[place + 1]])
    return word[:place] + word[place + 1] + word[place] + word[place + 2 :] + ":"


def _in_a_list(lines: list[str], random: Random, fields: list[int]) -> tuple[int, str] | None:
    """Move an item of a list that has begun: YAML lets the first item choose the indent."""
    found = [number for number in fields if lines[number].startswith("  - ") and lines[number - 1].startswith("  - ")]
    number = random.choice(found) if found else 0
    return (number, lines[number][1:]) if found else None


SLIPS: dict[str, Slip] = {
    "letters exchanged in the name of a field": _lines_like(r"^([a-z_]{4,}):", _exchanged),
    "one space too many": _lines_like(r"^(?=[a-z])(?!kind:)", lambda _m, _r: " "),
    "an indent lost by one space in a list": _in_a_list,
    "a tab for an indent": _lines_like(r"^ +(?=\S)", lambda _m, _r: "\t"),
    "grades the wrong way round": _lines_like(r"(?<=^grades: )(\w)-(\w)", lambda m, _r: f"{m[2]}-{m[1]}"),
    "a code that does not exist": _lines_like(
        r"(?<=^    )(S[1-5])\.E\d+\.", lambda m, r: f"{m[1]}.E{r.randrange(70, 99)}."
    ),
    "a code without its point": _lines_like(r"(?<=^    )(S[1-5])\.E", lambda m, _r: f"{m[1]}E"),
    "a length without its unit": _lines_like(
        r"(?<=^  )(length|width|safety): ([\d.]+) m", lambda m, _r: f"{m[1]}: {m[2]}"
    ),
    "a number in words": _lines_like(r"(least|usual|most): \d+", lambda m, _r: f"{m[1]}: five"),
    "a lost colon": _lines_like(r"^([a-z_]+):(?= )", lambda m, _r: m[1]),
    "a lost bracket": _lines_like(r"(?<=\S)[\]}]$", lambda _m, _r: ""),
    "an item that nobody has": _lines_like(r"(?<=item: )[a-z-]+", lambda _m, _r: "moon-boot"),
}


@pytest.fixture(scope="module")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> Loaded:
    """Load a copy of the shipped curriculum."""
    folder = tmp_path_factory.mktemp("faults") / "school"
    shutil.copytree(shipped_folder("curriculum"), folder, ignore=shutil.ignore_patterns("plans", ".*"))
    return load_folder(folder, folder.as_posix())


def _fields(text: str) -> list[int]:
    """Return the numbers (from 0) of the lines on which something other than the rest of a text begins."""
    starts: set[int] = set()

    def walk(node: Node) -> None:
        if not isinstance(node, ScalarNode):
            for one in node.value:
                for inner in one if isinstance(node, MappingNode) else (one,):
                    starts.add(inner.start_mark.line)
                    walk(inner)

    walk(compose(text, "record"))
    return sorted(starts)


def _found(loaded: Loaded, path: Path) -> list[Finding]:
    """Check the curriculum with one file as it is now."""
    name = path.as_posix()
    file = load_file(path, name)
    records = [record for record in loaded.records if record.path != name]
    records += [file.record] if file.record else []
    frameworks = loaded.library.frameworks.values()
    return list(
        findings_of(
            loaded._replace(
                records=tuple(records),
                library=build_library([*records, *frameworks]),
                findings=file.findings,
                broken=() if file.record else (load_folder(path, name).broken[0],),
            )
        )
    )


@pytest.mark.parametrize("sort", SLIPS)
def test_a_slip_is_found_at_its_line(sort: str, loaded: Loaded) -> None:
    """The first finding in the file is on the line of the slip, and there are at most three in the whole curriculum."""
    random, wrong, made = Random(sort), [], 0
    paths = [Path(path) for path in loaded.paths if "/outcomes/" not in path]
    while made < EACH:
        path = random.choice(paths)
        text = path.read_text("utf-8")
        lines = text.split("\n")
        slip = SLIPS[sort](lines, random, _fields(text))
        if slip is None:
            continue
        made += 1
        number, line = slip
        path.write_text("\n".join([*lines[:number], line, *lines[number + 1 :]]), "utf-8")
        found = _found(loaded, path)
        path.write_text(text, "utf-8")
        here = {one.location.line for one in found if one.location.path == path.as_posix()}
        if number + 1 not in here or len(found) > MOST:
            wrong.append(f"{path.name}:{number + 1}: {line!r}\n" + "\n".join(f"  {f.location} {f.says}" for f in found))

    assert [] == wrong, "\n".join(wrong)
