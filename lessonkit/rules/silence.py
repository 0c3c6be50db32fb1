"""What a curriculum keeps silent, makes milder or makes graver: its settings, and the remarks in its records.

A remark ``# lessonkit: allow RULE because REASON`` stands on the line of a finding, on a line of its own above it, or
in front of a file's first field for the whole file. The settings file holds for every record. Nothing here knows what
a rule looks for: findings go in, fewer or other findings come out, with one for every silence that does not work.
Errors that keep a record from being read cannot be silenced.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import Final, NamedTuple

from lessonkit.loading.codes import CODES, CUT_OFF
from lessonkit.loading.fault import make
from lessonkit.loading.folder import Loaded
from lessonkit.loading.places import locate
from lessonkit.loading.remarks import Remark
from lessonkit.records.settings import Setting, Settings
from lessonkit.rules.registry import RULES
from lessonkit.source.closest import closest
from lessonkit.source.finding import Code, Finding, Level, Related, in_reading_order
from lessonkit.source.location import FieldPath, Location
from lessonkit.source.pattern import Pattern

UNKNOWN: Final = Code("LK401", "silence-unknown", Level.WARNING)
UNUSED: Final = Code("LK402", "silence-unused", Level.WARNING)
UNREASONED: Final = Code("LK403", "silence-without-reason", Level.WARNING)
SETTINGS_TWICE: Final = Code("LK404", "settings-twice", Level.WARNING)
CODES_OF_SILENCE: Final = (UNKNOWN, UNUSED, UNREASONED, SETTINGS_TWICE)

_ALLOW: Final = Pattern(r"allow(?:\s+(?P<rule>[\w-]+))?(?:\s+because\b:?\s*(?P<reason>.*))?", re.IGNORECASE)
_FORM: Final = "Write it as: # lessonkit: allow RULE because REASON."
_OPEN: Final = frozenset({CUT_OFF.name, *(module.RULE.code.name for module in RULES)})
_FIRM: Final = frozenset(code.name for code in CODES) - _OPEN


class _Allowed(NamedTuple):
    """A remark that silences: the rule, and the remark itself."""

    rule: str
    remark: Remark


def apply_silence(findings: Sequence[Finding], loaded: Loaded, others: Collection[Code] = ()) -> tuple[Finding, ...]:
    """Return the findings that are left, at the levels that the settings give them, and those about the silences.

    ``others`` are codes beside those of the rules that may be silenced too; they are looked for only where nothing is
    an error. Whether a silence is needed is not said while a record cannot be read, since rules may wait for it.
    """
    if not loaded.remarks and not loaded.library.settings:
        return in_reading_order(findings)
    planned = {code.name for code in others}
    settings, found = _settings(loaded, _OPEN | planned)
    allowed, unusable = _remarks(loaded.remarks, _OPEN | planned)
    kept, used = _not_allowed(findings, allowed)
    left = [_weighed(finding, settings) for finding in kept if not _is_off(finding, settings)]
    unsure = planned if any(finding.level is Level.ERROR for finding in findings) else set()
    useless = [] if loaded.broken else [*_unused(allowed, used), *_off_for_nothing(loaded, settings, findings)]
    sure = (finding for rule, finding in useless if rule not in unsure)
    return in_reading_order([*left, *found, *unusable, *sure])


def _not_allowed(findings: Iterable[Finding], allowed: Iterable[_Allowed]) -> tuple[list[Finding], set[_Allowed]]:
    """Return the findings that no remark covers, and the remarks that cover one."""
    table: dict[tuple[str, str], list[_Allowed]] = {}
    for one in allowed:
        table.setdefault((one.remark.location.path, one.rule), []).append(one)
    kept, used = [], set()
    for finding in findings:
        covering = [
            one
            for one in table.get((finding.location.path, finding.code.name), ())
            if one.remark.line in (None, finding.location.line)
        ]
        used.update(covering)
        kept += [] if covering else [finding]
    return kept, used


def _is_off(finding: Finding, settings: dict[str, Setting]) -> bool:
    return finding.code.name in settings and settings[finding.code.name].level == "off"


def _weighed(finding: Finding, settings: dict[str, Setting]) -> Finding:
    setting = settings.get(finding.code.name)
    return finding if setting is None else finding._replace(level=Level(setting.level))


def _record_of(loaded: Loaded) -> Settings | None:
    """Return the settings that count: those that lie nearest to the top, the first by name."""
    return min(loaded.library.settings.values(), key=lambda one: (one.path.count("/"), one.path), default=None)


def _settings(loaded: Loaded, names: Collection[str]) -> tuple[dict[str, Setting], list[Finding]]:
    record = _record_of(loaded)
    if record is None:
        return {}, []
    found = [
        make(
            SETTINGS_TWICE,
            f"A curriculum has one settings file; the one in {record.path} counts, and this one does nothing.",
            locate(other.path, ("kind",)),
            related=(Related(locate(record.path, ("kind",)), "the one that counts"),),
        )
        for other in loaded.records
        if isinstance(other, Settings) and other.path != record.path
    ]
    known = {name: setting for name, setting in record.rules.items() if name in names}
    for name in record.rules:
        if name not in known:
            field: FieldPath = ("rules", name)
            found.append(_unknown(name, names, locate(record.path, field, on_key=True), record=record.id, field=field))
    return known, found


def _off_for_nothing(
    loaded: Loaded, settings: dict[str, Setting], findings: Iterable[Finding]
) -> Iterator[tuple[str, Finding]]:
    """Give the rules that are off though nothing breaks them, each with the finding that says so."""
    record, said = _record_of(loaded), {finding.code.name for finding in findings}
    if record is None:
        return
    for name, setting in settings.items():
        if setting.level == "off" and name not in said:
            field: FieldPath = ("rules", name)
            says = f"The rule {name} is off, but no record breaks it; take it out of the settings."
            yield name, make(UNUSED, says, locate(record.path, field, on_key=True), record=record.id, field=field)


def _remarks(remarks: Iterable[Remark], names: Collection[str]) -> tuple[list[_Allowed], list[Finding]]:
    allowed, found = [], []
    for remark in remarks:
        match = _ALLOW.fullmatch(remark.says)
        rule = match.group("rule") if match else None
        if match is None or rule is None or rule.lower() == "because":
            says = f"This remark to lessonkit cannot be understood: {remark.says!r}."
            found.append(make(UNKNOWN, says, remark.location, hint=_FORM))
        elif rule not in names:
            found.append(_unknown(rule, names, remark.location))
        elif not re.search(r"\w", match.group("reason") or ""):
            says = f"The rule {rule} is silenced here without a reason, so it still speaks."
            found.append(make(UNREASONED, says, remark.location, hint=_FORM))
        else:
            allowed.append(_Allowed(rule, remark))
    return allowed, found


def _unused(allowed: Iterable[_Allowed], used: Collection[_Allowed]) -> Iterator[tuple[str, Finding]]:
    """Give the rules of the remarks that silence nothing, each with the finding that says so."""
    for one in allowed:
        if one not in used:
            where = "in this file" if one.remark.line is None else f"on line {one.remark.line}"
            says = f"Nothing {where} breaks the rule {one.rule}, so this remark silences nothing; take it away."
            yield one.rule, make(UNUSED, says, one.remark.location)


def _unknown(
    rule: str, names: Collection[str], place: Location, record: str | None = None, field: FieldPath = ()
) -> Finding:
    if rule in _FIRM:
        says = f"The finding {rule} cannot be silenced: it keeps the record from being read."
        return make(UNKNOWN, says, place, record=record, field=field)
    meant = closest(rule, names)
    hint = f"Did you mean {meant!r}?" if meant else None
    return make(UNKNOWN, f"There is no rule {rule!r}.", place, record=record, field=field, hint=hint)


_PAGES: Final[dict[Code, str]] = {
    UNKNOWN: """A remark or a setting is to silence something that is no rule, or that cannot be silenced.

A misspelled name would silence nothing, and nobody would notice.
Findings that keep a record from being read cannot be silenced: nothing else could be said about such a record.

Fails:

    # lessonkit: allow cue-to-long because our cues are rhymes

Passes:

    # lessonkit: allow cue-too-long because our cues are rhymes
""",
    UNUSED: """A remark or a setting silences nothing.

What it was for has been mended, or it stands at another line.
Left where it is, it would hide the next fault of the kind.
""",
    UNREASONED: """A rule is silenced without a reason.

Next year nobody knows whether it still must be.
The rule goes on speaking until a reason is given.

Fails:

    # lessonkit: allow cue-too-long

Passes:

    # lessonkit: allow cue-too-long because our cues are rhymes
""",
    SETTINGS_TWICE: """A curriculum has a second settings file.

The one nearest to the top counts, and of several there the first by name; the others do nothing.
Put the rules of both into lessonkit.yaml at the top of the curriculum.
""",
}


def explain(name: str) -> str | None:
    """Return the page of a finding about silences by its name or number, None for another."""
    wanted = name.lower()
    for code, page in _PAGES.items():
        if wanted in (code.name, code.number.lower()):
            return f"{code.name} ({code.number}, {code.level.value})\n\n{page.strip()}"
    return None
