"""Lays a few lines of a record over a whole one that no rule minds, and lets a rule look at the outcome."""

import re
import shutil
import textwrap
from collections.abc import Collection
from pathlib import Path
from types import ModuleType

from lessonkit.loading.folder import load_folder
from lessonkit.records.library import KINDS
from lessonkit.records.record import Record
from lessonkit.rules.rule import page
from lessonkit.rules.run import run_rules
from lessonkit.source.finding import Finding

BASE = Path(__file__).parents[1] / "cases" / "rules" / "base"
_FIELD = re.compile(r"^([a-z_]+):", re.MULTILINE)


def kind_of(module: ModuleType) -> str:
    """Return the kind of record that a rule's snippets are of: the first that it looks at."""
    first: type[Record] = module.RULE.kinds[0]
    return next(kind for kind, record in KINDS.items() if record is first)


def snippet(module: ModuleType, heading: str) -> str:
    """Return the indented lines of a rule's page under a heading such as ``Fails``."""
    found = re.search(rf"^{heading}[^\n]*:\n\n((?:    [^\n]*\n?|\n)+)", page(module), re.MULTILINE)
    assert found is not None
    return textwrap.dedent(found.group(1)).strip() + "\n"


def laid(lines: str, kind: str, without: Collection[str] = ()) -> str:
    """Return the text of a record: the lines, then every field of the usual one that they do not have."""
    whole = (BASE / f"{kind}.yaml").read_text("utf-8")
    fields = [match.start() for match in _FIELD.finditer(whole)]
    blocks = [whole[start:end] for start, end in zip(fields, [*fields[1:], len(whole)], strict=True)]
    given = {*_FIELD.findall(lines), *without}
    return lines + "".join(block for block in blocks if block.partition(":")[0] not in given)


def found_in(lines: str, kind: str, module: ModuleType, folder: Path, without: Collection[str] = ()) -> list[Finding]:
    """Write the record into a copy of the usual curriculum and return what one rule finds in it."""
    shutil.copytree(BASE, folder, dirs_exist_ok=True)
    file = folder / f"{kind}.yaml"
    file.write_text(laid(lines, kind, without), "utf-8")
    loaded = load_folder(folder, folder.as_posix())

    assert () == loaded.findings
    records = tuple(record for record in loaded.records if record.path == file.as_posix())
    return list(run_rules(loaded._replace(records=records), (module,)))
