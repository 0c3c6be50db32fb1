"""An easier way is written among the harder ones, or a harder one among the easier, or one stands in both.

A larger or slower ball, a nearer target and a pause make a task easier; a smaller or faster ball, a farther target and
less time make it harder (common practice, no source). Only words that leave no doubt are looked for.

Fails:

    harder: [Use a larger ball.]

Passes:

    harder: [Use a smaller ball.]
"""

from collections.abc import Iterator
from typing import Final

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.pattern import Pattern

RULE = Rule(Code("LK257", "challenge-reversed", Level.WARNING), (Activity,))
_EASES: Final = Pattern(
    r"(?:Use|Take|Choose|Play with) (?:a|the) (?:larger|bigger|slower|softer|lighter) "
    r"(?:ball|balloon|target)\b"
    r"|(?:Stand|Move|Come|Start) (?:one step )?(?:closer|nearer)\b",
)
_HARDENS: Final = Pattern(
    r"(?:Use|Take|Choose|Play with) (?:a|the) (?:smaller|faster|quicker|livelier) (?:ball|target)\b"
    r"|(?:Stand|Move|Start) (?:one step |a step )?(?:farther|further)\b",
)


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every way that stands in the wrong list, or in both."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "easier", "harder"):
        for name, wrong, other in (("easier", _HARDENS, "harder"), ("harder", _EASES, "easier")):
            if not taught.says(name):
                continue
            for number, way in enumerate(getattr(taught.activity, name)):
                if wrong.match(way):
                    yield Fault(
                        (*taught.place(name), number), f"This way makes the task {other}, but stands under {name}."
                    )
        both = [way for way in taught.activity.harder if way in taught.activity.easier]
        for way in both:
            where = taught.place("harder" if taught.says("harder") else "easier")
            yield Fault(where, f"The same way stands under easier and harder: {way}", on_key=True)
