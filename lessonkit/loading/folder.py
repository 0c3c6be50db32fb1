"""A folder of record files to a library."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from lessonkit.loading import codes
from lessonkit.loading.fault import make
from lessonkit.loading.file import LoadedFile, load_content
from lessonkit.loading.places import locate
from lessonkit.records.library import AnyRecord, Library, build_library
from lessonkit.source.finding import Finding, Related, in_reading_order
from lessonkit.source.location import file_start
from lessonkit.source.shipped import shipped_folder

ENDINGS = (".yaml", ".yml")
_PASSED_OVER = frozenset({"node_modules", "__pycache__", "schema"})


@dataclass(frozen=True, slots=True)
class Loaded:
    """A curriculum as loaded: its library, its own records, what is wrong, and how many files were read.

    The library also holds the outcome frameworks that come with the program, where the folder has none of the same id.
    """

    library: Library
    records: tuple[AnyRecord, ...]
    findings: tuple[Finding, ...]
    files: int


def load_folder(folder: Path, shown: str) -> Loaded:
    """Load every record file of a folder and its subfolders, or the one file that ``folder`` is.

    ``shown`` is the folder as the user named it, with forward slashes; the findings' paths start with it.
    """
    records: list[AnyRecord] = []
    findings: list[Finding] = []
    files = 0
    for path, name in record_files(folder, shown):
        files += 1
        loaded = _load(path, name)
        findings.extend(loaded.findings)
        if loaded.record is not None:
            records.append(loaded.record)
    findings.extend(_same_ids(records))
    library = build_library([*records, *_shipped_frameworks(records)])
    return Loaded(library, tuple(records), in_reading_order(findings), files)


def record_files(folder: Path, shown: str) -> Iterator[tuple[Path, str]]:
    """Give the record files of a folder in the order of their names, each with the name to show."""
    if folder.is_file():
        yield folder, shown
        return
    prefix = "" if shown in ("", ".") else shown.rstrip("/") + "/"
    for path in sorted(folder.iterdir(), key=lambda path: path.name):
        if path.name.startswith(".") or path.name in _PASSED_OVER:
            continue
        if path.is_dir():
            yield from record_files(path, prefix + path.name)
        elif path.suffix.lower() in ENDINGS:
            yield path, prefix + path.name


def _load(path: Path, name: str) -> LoadedFile:
    try:
        content = path.read_bytes()
    except OSError as problem:
        says = f"This file cannot be read: {problem.strerror or problem}."
        return LoadedFile(None, (make(codes.UNREADABLE, says, file_start(name)),))
    return load_content(content, name)


def _same_ids(records: Iterable[AnyRecord]) -> Iterator[Finding]:
    first: dict[tuple[str, str], AnyRecord] = {}
    for record in records:
        earlier = first.setdefault((record.kind, record.id), record)
        if earlier is not record:
            yield make(
                codes.SAME_ID,
                f"The id {record.id!r} is taken by another {record.kind} record; give this one its own.",
                locate(record.path, ("id",)),
                record=record.id,
                field=("id",),
                related=(Related(locate(earlier.path, ("id",)), "first used here"),),
            )


def _shipped_frameworks(records: Iterable[AnyRecord]) -> list[AnyRecord]:
    own = {record.id for record in records if record.kind == "outcomes"}
    found = []
    for path in sorted((shipped_folder("curriculum") / "outcomes").glob("*.yaml")):
        if path.stem in own:
            continue
        loaded = load_content(path.read_bytes(), path.as_posix())
        if loaded.record is not None:
            found.append(loaded.record)
    return found
