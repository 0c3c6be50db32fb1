"""A record names something that the curriculum does not hold.

An activity, an item of equipment, a skill, a step, a class, a space, a school, a framework or a unit is named by its
id, and there is none with that id. A lesson cannot be planned or printed from a name that leads nowhere.

Fails:

    builds_on: [ladder-of-tap]

Passes:

    builds_on: [ladder-of-taps]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.equipment import Catalogue
from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.records.school import School
from lessonkit.records.unit import Unit
from lessonkit.records.year import Year, YearMap
from lessonkit.rules.references import Reference, all_lead_somewhere, references
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK201", "reference-unknown", Level.ERROR), (Activity, Catalogue, Plan, School, Unit, Year, YearMap))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every name that leads nowhere."""
    if isinstance(record, Activity) and all_lead_somewhere(record, context.library):
        return
    for reference in references(record, context.library):
        if reference.name in reference.known or reference.name in context.broken:
            continue
        if context.items_known or reference.known is not context.library.items:
            yield _fault(reference)


def _fault(reference: Reference) -> Fault:
    from lessonkit.source.closest import closest

    meant = closest(reference.name, reference.known) or _longer(reference)
    hint = f"Did you mean {meant!r}?" if meant else None
    return Fault(reference.field, f"There is no {reference.what} with the id {reference.name!r}.", hint)


def _longer(reference: Reference) -> str | None:
    """Return the only id that has all the words of a name, in their order and side by side."""
    longer = [known for known in reference.known if f"-{reference.name}-" in f"-{known}-"]
    return longer[0] if len(longer) == 1 else None
