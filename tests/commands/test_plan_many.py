"""Several units planned at once get the plans that they get one after the other."""

import signal
from dataclasses import replace
from multiprocessing import active_children
from pathlib import Path

from msgspec import structs

from lessonkit.commands.plan_many import Task, plan_task, plan_tasks
from lessonkit.loading.folder import load_folder
from lessonkit.planning.sequence import Options, Planned
from lessonkit.planning.write_plan import plan_text
from lessonkit.records.library import Library

CURRICULUM = Path(__file__).parents[2] / "curriculum"


def short_units() -> Library:
    """Return the shipped curriculum with two units of two lessons and no aims."""
    library = load_folder(CURRICULUM, "curriculum").library
    pattern = library.units["paddles-grade-3"]
    kept = {key: a for key, a in library.activities.items() if a.parts == ("closing",) or "short-paddle" in a.path}
    units = {
        name: structs.replace(pattern, id=name, lessons=2, aims=(), shapes=pattern.shapes[:1], moving=30)
        for name in ("one", "two")
    }
    warm = {key: a for key, a in library.activities.items() if "warm-up" in a.parts and "/moving/" in a.path}
    return replace(library, units=units, activities={**kept, **warm}, plans={}, years={}, year_maps={})


def test_plans_do_not_depend_on_who_makes_them() -> None:
    """In processes of their own or here, the text of each plan is the same, in the order that was asked for."""
    library = short_units()
    classes = ("grade-3-heron", "grade-3-kestrel")
    tasks = [Task("two", classes), Task("one", classes[:1])]
    apart = list(plan_tasks(library, tasks, Options()))
    here = [done for task in tasks for done in plan_task(library, task, Options())]

    assert [("two", classes[0]), ("two", classes[1]), ("one", classes[0])] == [(d.unit, d.school_class) for d in apart]
    texts = []
    for done in (*apart, *here):
        assert isinstance(done.outcome, Planned)
        texts.append(plan_text(done.outcome.plan, library))
    assert texts[:3] == texts[3:]


def test_stopping_ends_the_processes() -> None:
    """Who wants no more plans, as Ctrl-C does, ends every process that plans, instead of waiting for its search."""
    plans = plan_tasks(short_units(), [Task("one", ("grade-3-heron",)), Task("two", ("grade-3-heron",))], Options())
    next(plans)
    workers = active_children()
    plans.close()

    assert workers
    assert {-signal.SIGTERM} == {worker.exitcode for worker in workers}
