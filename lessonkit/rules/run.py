"""Run every rule over a library and place what they find."""

from collections.abc import Iterator
from functools import lru_cache
from types import ModuleType

from lessonkit.loading.folder import Loaded
from lessonkit.loading.places import locate
from lessonkit.records.record import Record
from lessonkit.rules.registry import RULES
from lessonkit.rules.rule import Context, Fault, page
from lessonkit.source.finding import Finding, Related, in_reading_order


def run_rules(loaded: Loaded, rules: tuple[ModuleType, ...] = RULES) -> tuple[Finding, ...]:
    """Return what the rules find in a curriculum's own records, in reading order."""
    context = Context(
        loaded.library,
        frozenset(file.id for file in loaded.broken),
        not any(file.kind in ("equipment", None) for file in loaded.broken),
    )
    return in_reading_order(finding for record in loaded.records for finding in _of_record(record, context, rules))


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
    )


def explain(name: str) -> str | None:
    """Return the page of a rule by its name or number, headed by both; None for one that does not exist."""
    for module in RULES:
        code = module.RULE.code
        if name.lower() in (code.name, code.number.lower()):
            return f"{code.name} ({code.number}, {code.level.value})\n\n{page(module)}"
    return None
