"""Damaged markup ends in a sentence or in a comparison, never in a crash."""

import random

import pytest
from lxml import etree

from lessonkit.writers.options import Options, SchoolLook
from lessonkit.writers.word.meeting import meet_word
from lessonkit.writers.word.opening import UnsafeFileError, unpack
from lessonkit.writers.word.writer import write

from ..sample_lesson import lesson_document
from .school_files import letterhead, repacked

LESSON = write(lesson_document())
LETTERHEAD = letterhead()
ODD = ("", "-1", "x", "1.5", "999999999999", "true", "12pt", "rId99", "\u00e9")


def _damaged(content: bytes, seed: int) -> bytes:
    """Return a Word file with up to five elements or values of one part taken out, moved or replaced."""
    chance = random.Random(seed)
    names = [name for name in unpack(content) if name.endswith(".xml") and not name.startswith("customXml")]
    name = chance.choice([*names, "word/document.xml", "word/styles.xml"])
    root = etree.fromstring(unpack(content)[name])
    for _ in range(chance.randrange(1, 6)):
        element = chance.choice([each for each in root.iter() if isinstance(each.tag, str)])
        parent = element.getparent()
        if element.attrib and chance.random() < 0.6:
            element.set(chance.choice(list(element.attrib)), chance.choice(ODD))
        elif parent is not None and chance.random() < 0.5:
            parent.remove(element)
        elif parent is not None:
            parent.append(element)
    return repacked(content, lambda parts: parts.__setitem__(name, etree.tostring(root)))


@pytest.mark.parametrize("start", range(0, 60, 20))
def test_a_damaged_export_is_met_without_a_crash(start: int) -> None:
    """Seeds are numbers; whatever they damage, the file has a standing."""
    assert 20 == len([meet_word(_damaged(LESSON, seed), LESSON).standing for seed in range(start, start + 20)])


@pytest.mark.parametrize("start", range(0, 60, 20))
def test_a_damaged_letterhead_is_used_or_refused(start: int) -> None:
    """It gives a Word file that can be opened, or a sentence."""
    for seed in range(start, start + 20):
        try:
            made = write(lesson_document(), Options(look=SchoolLook(_damaged(LETTERHEAD, seed))))
        except UnsafeFileError as refused:
            assert str(refused)
        else:
            assert "word/document.xml" in unpack(made)
