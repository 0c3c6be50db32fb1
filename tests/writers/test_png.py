"""Floor drawings as PNG, where the package that paints them is installed."""

import struct
import sys

import pytest

from lessonkit.document.scene import Area, Scene
from lessonkit.writers.png import NoPicturesError, write_png

HALL = Scene(10, 5, (Area(0, 0, 10, 5, "room", "Hall"),))


def test_a_picture_has_the_pixels_of_its_width() -> None:
    """A drawing of 96 points is 1 1/3 inches, at 288 dots an inch 384 pixels (PNG specification, 11.2.1: IHDR)."""
    pytest.importorskip("resvg_py")
    picture = write_png(HALL, 96)

    assert b"\x89PNG\r\n\x1a\n" == picture[:8]
    assert 384 == struct.unpack(">I", picture[16:20])[0]
    assert picture == write_png(HALL, 96)


def test_a_picture_may_have_a_height_of_its_own() -> None:
    """96 by 96 points are 384 by 384 pixels; the drawing, twice as wide as high, keeps its form in the middle."""
    pytest.importorskip("resvg_py")
    picture = write_png(HALL, 96, 96)

    assert (384, 384) == struct.unpack(">II", picture[16:24])


def test_a_missing_package_is_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the package the teacher hears how to get it, in words that any shell takes and that end the sentence."""
    monkeypatch.setitem(sys.modules, "resvg_py", None)

    with pytest.raises(NoPicturesError, match=r"with: python -m pip install resvg_py$"):
        write_png(HALL)
