"""Many findings about one shortage told as one, for a person to read; forms for other programs keep each of them."""

from collections.abc import Iterable
from typing import Final

from lessonkit.source.finding import Code, Finding, Level, Tally

FEW: Final = 3
"""Findings of a kind that are each told; of more, as many are named."""


def told(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings in their order, with one in place of all that share a code, a level and what their tally says.

    It stands at the place of the first of them.
    """
    findings = tuple(findings)
    groups: dict[tuple[Code, Level, str], list[tuple[Finding, Tally]]] = {}
    for finding in findings:
        if finding.tally is not None:
            key = (finding.code, finding.level, finding.tally.says)
            groups.setdefault(key, []).append((finding, finding.tally))
    many = [group for group in groups.values() if len(group) > FEW]
    instead = {id(group[0][0]): _one(group) for group in many}
    gone = {id(finding) for group in many for finding, _ in group[1:]}
    return tuple(instead.get(id(finding), finding) for finding in findings if id(finding) not in gone)


def _one(group: list[tuple[Finding, Tally]]) -> Finding:
    most: dict[str, int] = {}
    for _, tally in group:
        most[tally.name] = max(tally.number, most.get(tally.name, 0))
    worst = sorted(most.items(), key=lambda each: (-each[1], each[0]))
    named = [f"“{name}” ({number})" for name, number in worst[:FEW]]
    if worst[FEW:]:
        named.append(f"{len(worst) - FEW} more")
    names = " and ".join(filter(None, (", ".join(named[:-1]), named[-1])))
    files = len({finding.location.path for finding, _ in group})
    where = "this file" if files == 1 else f"{files} files"
    first, tally = group[0]
    hint = f"In brackets is how many are needed; --form json lists all {len(group)} findings in {where}."
    return first._replace(says=f"{tally.says} {names}.", hint=hint, related=(), repair=None, tally=None)
