"""How wide and how tall the letters of usual fonts are beside Calibri's, for counting pages in a school's own font."""

from typing import Final

_SIZES: Final[dict[str, tuple[float, float]]] = {
    "aptos": (1.08, 1.05),
    "arial": (1.11, 0.942),
    "calibri": (1.0, 1.0),
    "cambria": (1.07, 0.97),
    "candara": (1.03, 1.0),
    "carlito": (1.0, 1.0),
    "century gothic": (1.22, 1.0),
    "comic sans ms": (1.2, 1.15),
    "constantia": (1.08, 1.0),
    "corbel": (1.03, 1.0),
    "dejavu sans": (1.28, 0.954),
    "dejavu serif": (1.29, 0.954),
    "franklin gothic book": (1.05, 0.93),
    "garamond": (0.97, 0.93),
    "georgia": (1.14, 0.94),
    "gill sans mt": (1.02, 0.95),
    "helvetica": (1.11, 0.942),
    "liberation sans": (1.11, 0.942),
    "liberation serif": (1.01, 0.942),
    "open sans": (1.19, 1.12),
    "segoe ui": (1.12, 1.09),
    "tahoma": (1.1, 0.99),
    "times new roman": (1.01, 0.942),
    "trebuchet ms": (1.08, 0.96),
    "verdana": (1.3, 1.0),
}
"""Width of running words and height of a line as shares of Calibri's.

Liberation (the widths of Arial, Helvetica and Times New Roman) and DejaVu are measured over a binder with its
bold words; the others are from memory, rounded upwards.
"""
_UNKNOWN: Final = (1.2, 1.12)
"""What a font that is not listed is taken for: a wide one, so that pages rather stay a little empty."""


def font_size(font: str) -> tuple[float, float]:
    """Return how wide and how tall a font is beside Calibri."""
    return _SIZES.get(font.strip().lower(), _UNKNOWN)
