"""Run every rule over a library and place what they find."""

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
    findings: list[Finding] = []
    for record in loaded.records:
        for module in rules:
            if not isinstance(record, module.RULE.kinds):
                continue
            findings.extend(_finding(module, record, fault) for fault in module.check(record, context))
    return in_reading_order(findings)


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
    )


def explain(name: str) -> str | None:
    """Return the page of a rule by its name or number, None for one that does not exist."""
    for module in RULES:
        if name.lower() in (module.RULE.code.name, module.RULE.code.number.lower()):
            return page(module)
    return None
