"""The texts that the rule knows for placeholders are those of the skeletons."""

from pathlib import Path

import pytest

from lessonkit.rules.placeholder_left import PLACEHOLDERS

SKELETONS = Path(__file__).parents[2] / "schema" / "skeletons"


@pytest.mark.parametrize("placeholder", sorted(PLACEHOLDERS))
def test_a_placeholder_stands_in_a_skeleton(placeholder: str) -> None:
    """Each text is written in a skeleton, in a field or in a remark that shows one (source: the skeletons)."""
    written = " ".join(" ".join(path.read_text("utf-8").split()) for path in sorted(SKELETONS.glob("*.yaml")))

    assert " ".join(placeholder.split()) in written
