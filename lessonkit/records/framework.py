"""An outcome framework: the codes a school reports against."""

from collections.abc import Mapping
from functools import cached_property
from typing import Literal

from lessonkit.records.record import Part, Record

Status = Literal["active", "emerging", "applies-skill", "not-applicable"]


class Variant(Part, frozen=True, kw_only=True):
    """A spelling seen in the wild and the code it means."""

    seen: str
    means: str
    where: str | None = None


class Unclear(Part, frozen=True, kw_only=True):
    """A spelling that cannot be repaired, with the reason."""

    seen: str
    reason: str
    where: str | None = None


class Spelling(Part, frozen=True, kw_only=True):
    """How codes are written: ``pattern`` matches a right one, ``repair`` one that can be put right.

    Both are regular expressions. ``rebuild`` makes the right code of the pieces of ``repair``: ``{1}`` is the first.
    """

    pattern: str
    repair: str | None = None
    rebuild: str | None = None
    variants: tuple[Variant, ...] = ()
    unclear: tuple[Unclear, ...] = ()


class Source(Part, frozen=True, kw_only=True):
    """Where codes were seen."""

    id: str
    title: str
    address: str | None = None
    kind: str | None = None


class Outcome(Part, frozen=True, kw_only=True):
    """An outcome code and, in our own words, what it asks of a child.

    ``grade`` is as the framework names it (``K``, ``3``, ``6``, ``L1``, or a span such as ``PreK-2``).
    """

    code: str
    standard: str
    grade: str
    topic: str
    strand: str | None = None
    status: Status = "active"
    says: str | None = None
    first_grade: str | None = None
    see: str | None = None
    printed: str | None = None
    has_code: bool = True
    note: str | None = None
    sources: tuple[str, ...] = ()


class Framework(Record, frozen=True, kw_only=True, dict=True, gc=True):
    """A framework. ``complete`` is False where codes exist that are not listed."""

    publisher: str
    year: int
    complete: bool = True
    standards: dict[str, str]
    notes: tuple[str, ...] = ()
    spelling: Spelling
    sources: tuple[Source, ...] = ()
    outcomes: tuple[Outcome, ...]

    @cached_property
    def by_code(self) -> Mapping[str, Outcome]:
        """The outcomes by their codes."""
        return {outcome.code: outcome for outcome in self.outcomes}

    @cached_property
    def by_folded_code(self) -> Mapping[str, Outcome]:
        """The outcomes by their codes without regard to capitals; codes that differ in nothing else are left out."""
        folded: dict[str, list[Outcome]] = {}
        for outcome in self.outcomes:
            folded.setdefault(outcome.code.casefold(), []).append(outcome)
        return {code: found[0] for code, found in folded.items() if len(found) == 1}
