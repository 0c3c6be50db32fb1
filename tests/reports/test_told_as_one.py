"""What is short for very many activities is told in one piece, the most needed first."""

from lessonkit.commands.kept_findings import finding_of, plain
from lessonkit.reports.json import write_json
from lessonkit.reports.text import TextOptions, write_text
from lessonkit.reports.told_as_one import told
from lessonkit.source.finding import Code, Finding, Level, Tally
from lessonkit.source.location import Location

CODE = Code("LK244", "equipment-short", Level.WARNING)


def short(name: str, number: int, path: str = "a.yaml", says: str = "We have 6 nets, too few for") -> Finding:
    """Return advice on an activity that needs more than there is."""
    tally = Tally(says, name, number)
    return Finding(CODE, Level.ADVICE, f"{name} needs {number}.", Location(path, 6, 1, 6, 2), tally=tally)


MANY = (short("Bee", 8), short("Ant", 8), short("Cat", 7), short("Dog", 30), short("Dog", 9, "b.yaml"))


def test_many_are_told_as_one_with_the_three_that_need_most() -> None:
    """Dog counts once, with its larger class; Cat, who needs least, is counted only (read off the list above)."""
    (one,) = told(MANY)

    assert "We have 6 nets, too few for “Dog” (30), “Ant” (8), “Bee” (8) and 1 more." == one.says
    assert "In brackets is how many are needed; --form json lists all 5 findings in 2 files." == one.hint
    assert MANY[0].location == one.location


def test_few_and_others_are_told_one_by_one() -> None:
    """Three of a kind stay as they are, and so does what is short of something else, or weighs more."""
    warning = short("Eel", 9)._replace(level=Level.WARNING)
    others = (*MANY[:3], short("Fox", 9, says="We have 1 bat, too few for"), warning)

    assert others == told(others)


def test_one_activity_in_many_places_is_named_alone() -> None:
    """A single name has no list around it."""
    (one,) = told(short("Dog", 9, path) for path in ("a", "b", "c", "d"))

    assert "We have 6 nets, too few for “Dog” (9)." == one.says


def test_a_report_counts_all_and_other_forms_keep_all() -> None:
    """Five pieces of advice in a terminal's one; each in JSON."""
    shown = write_text(MANY, 2, lambda *_: None, TextOptions())

    assert 1 == shown.count("advice (equipment-short)")
    assert shown.endswith("5 pieces of advice in 2 of 2 files.")
    assert 5 == write_json(MANY, 2).count('"equipment-short"')


def test_what_is_kept_for_the_next_check_can_be_told_as_one_too() -> None:
    """A finding in plain values comes back whole."""
    assert MANY == tuple(finding_of(plain(finding)) for finding in MANY)
