"""Classes that no example has: one child, two, seven, 25, 31 and 64; an empty cupboard; a room for nobody."""

from typing import get_args

import msgspec
import pytest

from lessonkit.logistics.activity_time import turns, turns_say
from lessonkit.logistics.buying import to_buy
from lessonkit.logistics.equipment import needed, shortages
from lessonkit.logistics.floor import fits
from lessonkit.logistics.groups import group
from lessonkit.records.activity import Activity, Form, Need, Uneven

from .floors import activity, gym
from .test_equipment_over_time import ITEMS, school

CLASSES = (1, 2, 7, 25, 31, 64)


def odd(form: Form) -> Activity:
    """Return an activity in groups of a form, a ball each, on 2 by 2 m."""
    found = activity(2, 2, 0, form=form, uneven=Uneven(rule="larger-group", say="One more."))
    return msgspec.structs.replace(found, equipment=(Need(item="ball", count=1, per="child"),))


@pytest.mark.parametrize("children", CLASSES)
@pytest.mark.parametrize("form", sorted(get_args(Form)))
def test_every_class_gets_sentences(form: Form, children: int) -> None:
    """Nobody is left over, and groups, turns and floor are each answered in a sentence (by counting)."""
    found = odd(form)
    grouping = group(found.organisation, children)

    assert children == sum(grouping.sizes) + grouping.rotating_in
    assert 0 < turns(found, children).share <= 1
    for says in (grouping.says, turns_say(found, children), fits(found, children, gym()).says):
        assert says.endswith(".")
        assert says[0].isupper() or says[0].isdigit()


@pytest.mark.parametrize("children", CLASSES)
def test_an_empty_cupboard_says_what_to_buy(children: int) -> None:
    """With none owned and nothing to stand in, all that is needed is to be bought: a ball a child."""
    (short,) = to_buy(shortages(needed(odd("individuals"), children), school(), ITEMS), ITEMS)

    assert children == short.count
    assert f"({children} needed, none owned)" in short.says
