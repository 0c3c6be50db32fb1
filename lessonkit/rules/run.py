"""Run every rule over a library and place what they find."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from types import ModuleType
from typing import TYPE_CHECKING

from lessonkit.loading.places import locate
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, page
from lessonkit.source.finding import Finding, Related, in_reading_order

if TYPE_CHECKING:
    from lessonkit.loading.folder import Loaded


def run_rules(loaded: "Loaded", rules: tuple[ModuleType, ...] | None = None) -> tuple[Finding, ...]:
    """Return what the rules, by default all, find in a curriculum's own records, in reading order."""
    context = Context(
        loaded.library,
        frozenset(file.id for file in loaded.broken),
        not any(file.kind in ("equipment", None) for file in loaded.broken),
    )
    return check_records(loaded.records, context, _every_rule() if rules is None else rules)


def check_records(records: Iterable[Record], context: Context, rules: tuple[ModuleType, ...]) -> tuple[Finding, ...]:
    """Return what rules find in some records, in reading order."""
    return in_reading_order(finding for record in records for finding in _of_record(record, context, rules))


def _every_rule() -> tuple[ModuleType, ...]:
    """Return all rules. They are loaded here, so that whoever needs a few of them need not load the others."""
    from lessonkit.rules.registry import RULES

    return RULES


def _of_record(record: Record, context: Context, rules: tuple[ModuleType, ...]) -> Iterator[Finding]:
    """Give what the rules find in one record. A record's own exceptions to a rule would be taken out here."""
    for module in _for_kind(type(record), rules):
        for fault in module.check(record, context):
            yield _finding(module, record, fault)


@lru_cache(maxsize=32)
def _for_kind(kind: type[Record], rules: tuple[ModuleType, ...]) -> tuple[ModuleType, ...]:
    """Return the rules that look at a kind of record."""
    return tuple(module for module in rules if issubclass(kind, module.RULE.kinds))


def _finding(module: ModuleType, record: Record, fault: Fault) -> Finding:
    code = module.RULE.code
    return Finding(
        code=code,
        level=fault.level or code.level,
        says=fault.says,
        location=locate(record.path, fault.field, fault.on_key),
        record=record.id,
        field=fault.field,
        hint=fault.hint,
        related=tuple(Related(locate(other.path, field), says) for other, field, says in fault.related),
        repair=fault.repair,
        tally=fault.tally,
    )


def explain(name: str) -> str | None:
    """Return the page of a rule by its name or number, headed by both; None for one that does not exist."""
    for module in _every_rule():
        code = module.RULE.code
        if name.lower() in (code.name, code.number.lower()):
            return f"{code.name} ({code.number}, {code.level.value})\n\n{page(module)}"
    return None
