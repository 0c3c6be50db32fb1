"""A folder of record files to a library."""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import Final, NamedTuple

from lessonkit.loading import codes
from lessonkit.loading.fault import make
from lessonkit.loading.file import load_content, read_content
from lessonkit.loading.loaded_file import LoadedFile
from lessonkit.loading.places import locate
from lessonkit.loading.record_files import mark_of, record_files
from lessonkit.loading.remarks import Remark
from lessonkit.records.framework import Framework
from lessonkit.records.library import AnyRecord, Library, build_library
from lessonkit.source.finding import Finding, Related, in_reading_order
from lessonkit.source.shipped import shipped_folder

_COPY: Final = 3
"""With more ids than these used twice in two folders, one is a copy of the other."""
_WRITTEN_ID: Final = re.compile(rb"^id:[ \t]*[\"']?([a-z0-9]+(?:-[a-z0-9]+)*)", re.MULTILINE)
_WRITTEN_KIND: Final = re.compile(rb"^kind:[ \t]*[\"']?([a-z-]+)", re.MULTILINE)


class Broken(NamedTuple):
    """A file whose record could not be built: an id it must have had, and its kind where that is known.

    ``path`` is the file as shown; ``written`` is the kind that it says to be of, though it may not be a record at all.
    """

    id: str
    kind: str | None
    path: str = ""
    written: str | None = None


class Loaded(NamedTuple):
    """A curriculum as loaded: its library, its own records, what is wrong, and how many files were read.

    The library also holds the outcome frameworks that come with the program, where the folder has none of the same id.
    ``digest`` stands for the names and contents of all files read: the same files, the same digest. ``broken`` are the
    files without a record, so that nobody complains of names that lead to them; ``paths`` are all files as shown;
    ``remarks`` are those to the program in the comments of the files that became records; ``marks`` stand for the
    content of each file of ``paths``, empty for one that could not be read.
    """

    library: Library
    records: tuple[AnyRecord, ...]
    findings: tuple[Finding, ...]
    files: int
    digest: str
    broken: tuple[Broken, ...] = ()
    paths: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    marks: tuple[str, ...] = ()


def load_folder(folder: Path, shown: str) -> Loaded:
    """Load every record file of a folder and its subfolders, or the one file that ``folder`` is.

    ``shown`` is the folder as the user named it, with forward slashes; the findings' paths start with it. Files and
    folders whose names begin with a dot are passed over, and so are those that programs keep for themselves.
    """
    records: list[AnyRecord] = []
    findings: list[Finding] = []
    broken: list[Broken] = []
    paths: list[str] = []
    remarks: list[Remark] = []
    marks: list[str] = []
    for found in record_files(folder, shown):
        if isinstance(found, Finding):
            findings.append(found)
            continue
        path, name = found
        paths.append(name)
        content = read_content(path, name)
        loaded = LoadedFile(None, (content,)) if isinstance(content, Finding) else load_content(content, name)
        marks.append("" if isinstance(content, Finding) else mark_of(content))
        findings.extend(loaded.findings)
        remarks.extend(loaded.remarks)
        if loaded.record:
            records.append(loaded.record)
        else:
            broken.extend(_broken(name, content, loaded.kind))
    findings.extend(_same_ids(records))
    library = build_library([*records, *_frameworks_to_add(records)])
    return Loaded(
        library,
        tuple(records),
        in_reading_order(findings),
        len(paths),
        mark_of(b"".join(_entry(name.removeprefix(shown), mark) for name, mark in zip(paths, marks, strict=True))),
        tuple(broken),
        tuple(paths),
        tuple(remarks),
        tuple(marks),
    )


def _broken(name: str, content: bytes | Finding, kind: str | None) -> Iterator[Broken]:
    """Give the id that a file must have had by its name, and the one that is written in it where that is another."""
    text = b"" if isinstance(content, Finding) else content
    said = _WRITTEN_KIND.search(text)
    written_kind = kind or (said.group(1).decode() if said else None)
    stem = Path(name).stem.removesuffix(".yaml")
    yield Broken(stem, kind, name, written_kind)
    written = _WRITTEN_ID.search(text)
    if written and written.group(1).decode() != stem:
        yield Broken(written.group(1).decode(), kind, name, written_kind)


def _entry(name: str, mark: str) -> bytes:
    label = name.lstrip("/").encode("utf-8", "surrogateescape")
    return b"%d %s\n%s" % (len(label), mark.encode(), label)


def _same_ids(records: Iterable[AnyRecord]) -> Iterator[Finding]:
    """Find ids that are used twice; of a folder that is a copy of another, only the first, with how many there are."""
    first: dict[tuple[str, str], AnyRecord] = {}
    copies: dict[tuple[str, str], list[tuple[AnyRecord, AnyRecord]]] = {}
    for record in records:
        earlier = first.setdefault((record.kind, record.id), record)
        if earlier is not record:
            later_owns = _is_named_by_id(record) and not _is_named_by_id(earlier)
            owner, other = (record, earlier) if later_owns else (earlier, record)
            first[record.kind, record.id] = owner
            copies.setdefault(_apart(other.path, owner.path), []).append((other, owner))
    for (copy, original), pairs in copies.items():
        if len(pairs) > _COPY and copy and original:
            says = (
                f"{len(pairs)} ids of the folder {copy!r} are taken already by records in {original!r}; "
                "if one of the two is a copy, take it out of the curriculum."
            )
            yield _same_id(*pairs[0], says)
            continue
        for other, owner in pairs:
            says = f"The id {owner.id!r} is taken already by the {owner.kind} in {owner.path}; give this one its own."
            yield _same_id(other, owner, says)


def _same_id(other: AnyRecord, owner: AnyRecord, says: str) -> Finding:
    return make(
        codes.SAME_ID,
        says,
        locate(other.path, ("id",)),
        record=other.id,
        field=("id",),
        related=(Related(locate(owner.path, ("id",)), "first used here"),),
    )


def _apart(one: str, other: str) -> tuple[str, str]:
    """Return the folders in which two paths differ: what is left of each without the end that they share."""
    ours, theirs = one.split("/"), other.split("/")
    while ours and theirs and ours[-1] == theirs[-1]:
        del ours[-1], theirs[-1]
    return "/".join(ours), "/".join(theirs)


def _is_named_by_id(record: AnyRecord) -> bool:
    return Path(record.path).stem == record.id


def _frameworks_to_add(records: Sequence[AnyRecord]) -> list[Framework]:
    own = {record.id for record in records if isinstance(record, Framework)}
    return [_shipped_framework(name) for name in _shipped_names() if name not in own]


def shipped_frameworks() -> tuple[Framework, ...]:
    """Return the outcome frameworks that come with the program."""
    return tuple(_shipped_framework(name) for name in _shipped_names())


def _shipped_names() -> list[str]:
    """Return the ids of the frameworks that come with the program; their files are named by them."""
    folder = shipped_folder("curriculum") / "outcomes"
    return sorted(path.stem for path in folder.iterdir() if path.suffix == ".yaml")


@cache
def _shipped_framework(name: str) -> Framework:
    path = shipped_folder("curriculum") / "outcomes" / f"{name}.yaml"
    record = load_content(path.read_bytes(), f"(lessonkit)/outcomes/{path.name}").record
    if not isinstance(record, Framework) or record.id != name:
        raise ValueError(f"the program's own file {path.name} does not hold the outcomes of {name}")
    return record
