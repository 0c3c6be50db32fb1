"""What is found is what was asked for, the best first; PyYAML reads the same records as the second opinion."""

from pathlib import Path
from typing import Any

import pytest
import yaml

from lessonkit.choosing.alike import alike, closest_pairs
from lessonkit.choosing.missing import missing
from lessonkit.choosing.wanted import Wanted, find
from lessonkit.choosing.words import near_words, words_nowhere
from lessonkit.loading.folder import load_folder
from lessonkit.records.library import Library
from lessonkit.records.measures import GRADES, Length
from lessonkit.records.school import Space

CURRICULUM = Path(__file__).parents[2] / "curriculum"


@pytest.fixture(scope="module")
def library() -> Library:
    """Return the shipped curriculum."""
    return load_folder(CURRICULUM, "curriculum").library


@pytest.fixture(scope="module")
def written() -> dict[str, dict[str, Any]]:
    """Return the shipped activities as PyYAML reads them."""
    files = sorted((CURRICULUM / "activities").rglob("*.yaml"))
    records = [yaml.safe_load(path.read_text("utf-8")) for path in files]
    return {record["id"]: record for record in records}


def _grades(band: object) -> tuple[str, ...]:
    first, _, last = str(band).partition("-")
    return GRADES[GRADES.index(first) : GRADES.index(last or first) + 1]


def test_grade_part_and_minutes(library: Library, written: dict[str, dict[str, Any]]) -> None:
    """Exactly the warm-ups for grade 2 that can be done in five minutes, set-up included, are found."""
    school = library.schools["quillfeather"]
    found = find(Wanted(grade="2", part="warm-up", minutes=5), library, school)
    expected = set()
    for key, record in written.items():
        if "2" in _grades(record["grades"]) and "warm-up" in record["parts"]:
            minutes = record["minutes"]
            for version in record.get("versions", ()):
                if "2" in _grades(version["grades"]):
                    minutes = version.get("minutes", minutes)
            if minutes["least"] + minutes.get("setup", 0) <= 5:
                expected.add(key)

    assert {match.activity.id for match in found} <= expected
    assert len(found) >= 5
    assert sorted((match.worth for match in found), reverse=True) == [match.worth for match in found]


def test_a_dozen_paddles_in_half_a_gym(library: Library) -> None:
    """Twelve paddles, half a gym and ten minutes: nothing needs more, and every group has its floor or its turn."""
    half = Space(
        id="half", title="Half", length=Length(11.0, "11 m"), width=Length(14.0, "14 m"), where="indoors", surface=""
    )
    wanted = Wanted(minutes=10, children=12, space=half, at_hand=(("short-paddle", 12),))
    found = find(wanted, library, library.schools["quillfeather"])

    assert found
    for match in found:
        assert 1 <= match.needs["short-paddle"] <= 12
        assert match.floor is not None and (match.floor.fits or match.activity.floor.if_more)
        assert match.activity.minutes.least + match.activity.minutes.setup <= 10


def test_nothing_else_means_nothing_else(library: Library) -> None:
    """With only cones and floor spots allowed, no activity needs another item."""
    wanted = Wanted(at_hand=(("cone", None), ("floor-spot", None)), nothing_else=True)
    found = find(wanted, library, library.schools["quillfeather"])

    assert found
    assert all(set(match.needs) <= {"cone", "floor-spot"} for match in found)


def test_checks_of_an_outcome_come_first(library: Library) -> None:
    """What assesses an outcome stands before what only practises it, equipment being equal or not far from it."""
    found = find(Wanted(outcome="S1.E24.3b", framework="us-pe-2013"), library, library.schools["quillfeather"])
    ways = [match.activity.outcomes["us-pe-2013"]["S1.E24.3b"] for match in found]

    assert "assessed" in ways[0]
    assert "assessed" not in ways[-1]


def test_words_are_looked_for_in_the_title_first(library: Library) -> None:
    """A word of a title brings its activity to the front, in the singular or plural; a word in no record finds none."""
    found = find(Wanted(words=("ladders",)), library, None)

    assert "ladder-of-taps" == found[0].activity.id
    assert () == find(Wanted(words=("zebra",)), library, None)


def test_likeness_is_mutual(library: Library) -> None:
    """Two activities are as alike from either side, and pairs are the same numbers."""
    one, other = alike(library.activities["ladder-of-taps"], library)[0].other, "ladder-of-taps"
    back = next(pair for pair in alike(library.activities[one], library) if pair.other == other)
    pairs = {frozenset((p.one, p.other)): p.likeness for p in closest_pairs(library, 0.3)}

    assert alike(library.activities[other], library)[0].likeness == back.likeness
    assert back.likeness == pairs[frozenset((one, other))]


def test_what_is_missing_agrees_with_a_count(library: Library, written: dict[str, dict[str, Any]]) -> None:
    """An outcome that no or one activity practises is named, by a count over the files themselves."""
    outcomes = yaml.safe_load((CURRICULUM / "outcomes" / "us-pe-2013.yaml").read_text("utf-8"))["outcomes"]
    for grade in GRADES:
        wanted = [o["code"] for o in outcomes if o["status"] == "active" and str(o["grade"]) == grade]
        few = {
            code
            for code in wanted
            if sum("practised" in r["outcomes"].get("us-pe-2013", {}).get(code, ()) for r in written.values()) < 2
        }
        lacks = missing(library, library.frameworks["us-pe-2013"], grade)
        named = {lack.about for lack in lacks if "practises" in lack.says}

        assert few == named


def test_a_word_that_nothing_has(library: Library, written: dict[str, dict[str, Any]]) -> None:
    """Of three words one is in no record; the nearest to a slip is the word with its letters."""
    texts = " ".join(str(record) for record in written.values()).lower()

    assert "zebra" not in texts
    assert "balloon" in texts
    assert ("zebra", "ballloon") == words_nowhere(("rope", "zebra", "ballloon"), library)
    assert "balloon" == near_words("ballloon", library)[0]
    assert () == near_words("zebra", library)


def test_one_child_makes_no_four(library: Library) -> None:
    """A class of one has the teacher for a partner, and no group of four."""
    school = library.schools["quillfeather"]

    assert () == find(Wanted(children=1, form="fours"), library, school)
    assert find(Wanted(children=1, form="pairs"), library, school)
