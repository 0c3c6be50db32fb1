"""How many children may wait in a line."""

from typing import Final

LONGEST_LINE: Final = 3
"""Children waiting for each one who moves: the most that common practice accepts (common practice, no source)."""
