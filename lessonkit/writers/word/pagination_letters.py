"""How wide letters are: the advance widths of Calibri, read from Carlito, the free font of the same widths.

Italic letters take the width of upright ones, which they miss by a hundredth or so. Words are measured letter by
letter, as Word does unless a document asks for kerning.
"""

from functools import lru_cache

UNITS = 2048
"""Units to the em: the size of the letters."""
LINE = 2500
"""Height of a line of the font in the same units: what it takes above and below the base line, with its own gap."""
_WIDE = 2048
_OTHER = 1076
_FIXED = 1126
"""Width of every letter of a typewriter font: Consolas has 0.55 em."""
_MARKS_OF_SOUND = range(0x300, 0x370)
_FIRST_WIDE = 0x2E80

_REGULAR: dict[int, str] = {
    452: "'",
    463: " \xa0",
    470: "il\xec\xed\xee\xef",
    490: "j",
    504: "\xb9",
    507: "\u0142",
    511: ",\u2018\u2019",
    516: "I\xcc\xcd\xce\xcf",
    517: ".\xb7",
    548: ":;",
    596: "`",
    598: "\xb4",
    621: "()",
    625: "f",
    627: "-",
    628: "[]",
    629: "\xb8",
    644: "{}",
    653: "J",
    667: "!\xa1",
    685: "\xb3",
    686: "t",
    688: "\xb2",
    694: "\xb0",
    714: "r",
    791: "/\\",
    801: "s\u0161",
    804: "\xa8",
    807: "\xaf",
    809: "z\u017e",
    821: '"',
    824: "\xaa",
    857: "\u201c\u201d",
    861: "L",
    865: "\xba",
    866: "c\xe7",
    880: "\u0141",
    887: "x",
    925: "v",
    927: "y\xfd\xff",
    931: "k",
    941: "FS\u0160",
    943: "|",
    949: "?\xbf",
    959: "Z\u017d",
    964: "g",
    981: "a\xe0\xe1\xe2\xe3\xe4\xe5",
    998: "TY\xdd",
    1000: "E\xc8\xc9\xca\xcb",
    1019: "e\xe8\xe9\xea\xeb",
    1020: "#*+<=>^_~\xa2\xa4\xa6\xa7\xac\xb1\xd7\xf7\u2013\u2022\u2212\u2264\u2265",
    1038: "$0123456789\xa3\xa5\xae\u20ac",
    1049: "\xab\xbb",
    1058: "P\xde",
    1063: "X",
    1064: "K",
    1076: "bdhnpqu\xf0\xf1\xf9\xfa\xfb\xfc\xfe",
    1080: "o\xdf\xf2\xf3\xf4\xf5\xf6",
    1084: "\xf8",
    1092: "C\xc7",
    1112: "R",
    1114: "B",
    1126: "\xb5",
    1162: "V",
    1185: "A\xc0\xc1\xc2\xc3\xc4\xc5",
    1200: "\xb6",
    1260: "D",
    1276: "H",
    1279: "\xd0",
    1292: "G",
    1303: "\xbc",
    1314: "U\xd9\xda\xdb\xdc",
    1322: "N\xd1",
    1356: "O\xd2\xd3\xd4\xd5\xd6",
    1359: "\xd8",
    1375: "\xbd",
    1378: "Q",
    1383: "\xbe",
    1397: "&",
    1414: "\u2026",
    1464: "%w",
    1563: "\xc6",
    1583: "\xe6",
    1636: "m",
    1709: "\xa9",
    1740: "\u0153",
    1751: "M",
    1775: "\u0152",
    1822: "W",
    1831: "@",
    1854: "\u2014\u2192\u2190",
}

_BOLD: dict[int, str] = {
    463: " \xa0",
    478: "'",
    503: "il\xec\xed\xee\xef",
    517: "\xb9",
    523: "j",
    528: ",\u2018\u2019",
    540: "\u0142",
    546: "I\xcc\xcd\xce\xcf",
    547: ".",
    548: "\xb7",
    565: ":;",
    615: "`",
    616: "\xb4",
    621: "\xb8",
    627: "-",
    638: "()",
    648: "f",
    665: "[]",
    667: "!\xa1",
    678: "J",
    688: "\xb3",
    692: "\xb2",
    701: "\xb0",
    704: "{}",
    710: "t",
    728: "r",
    799: "\xaf",
    814: "z\u017e",
    817: "s\u0161",
    849: "\xa8",
    852: "\xaa",
    857: "c\xe7",
    866: "L",
    880: "/\\",
    886: "\u0141",
    891: "\xba\u201c\u201d",
    898: '"',
    940: "F",
    941: "x",
    949: "?\xbf",
    968: "S\u0160",
    969: "v",
    970: "y\xfd\xff",
    971: "g",
    973: "|",
    979: "Z\u017d",
    983: "k",
    999: "E\xc8\xc9\xca\xcb",
    1011: "a\xe0\xe1\xe2\xe3\xe4\xe5",
    1014: "T",
    1020: "#*+<=>^_~\xa2\xa4\xa6\xa7\xac\xb1\xd7\xf7\u2013\u2022\u2212\u2264\u2265",
    1031: "e\xe8\xe9\xea\xeb",
    1038: "$0123456789\xa3\xa5\xae\u20ac",
    1064: "Y\xdd",
    1084: "C\xc7",
    1090: "P\xde",
    1099: "bdhnpqu\xf0\xf1\xf9\xfa\xfb\xfc\xfe",
    1101: "o\xf2\xf3\xf4\xf5\xf6",
    1103: "\xab\xbb",
    1114: "\xf8",
    1120: "K",
    1128: "X",
    1136: "\xdf",
    1148: "B",
    1153: "R",
    1154: "\xb5",
    1211: "V",
    1224: "\xb6",
    1241: "A\xc0\xc1\xc2\xc3\xc4\xc5",
    1291: "D",
    1292: "H",
    1305: "G",
    1309: "\xd0",
    1337: "U\xd9\xda\xdb\xdc",
    1347: "\xbc",
    1349: "N\xd1",
    1385: "O\xd2\xd3\xd4\xd5\xd6",
    1394: "\xd8",
    1405: "Q",
    1415: "\xbd",
    1437: "\xbe",
    1443: "&",
    1457: "\u2026",
    1493: "%",
    1526: "w",
    1587: "\xe6",
    1588: "\xc6",
    1666: "m",
    1709: "\xa9",
    1726: "\u0153",
    1790: "M\u0152",
    1840: "@",
    1854: "\u2014\u2192\u2190",
    1856: "W",
}


_LETTERS = tuple({letter: width for width, letters in rows.items() for letter in letters} for rows in (_REGULAR, _BOLD))


@lru_cache(maxsize=8_000)
def units(words: str, bold: bool) -> int:
    """Return the width of words in units of the font."""
    known = _LETTERS[bold]
    return sum(known.get(letter) or _unknown(letter) for letter in words)


def fixed_units(words: str) -> int:
    """Return the width of words in typewriter letters."""
    return _FIXED * len(words)


def _unknown(letter: str) -> int:
    """Guess a width: none for marks that stand on the letter before, an em for East Asian signs and pictures."""
    if ord(letter) in _MARKS_OF_SOUND or letter == "\u200d":
        return 0
    return _WIDE if ord(letter) >= _FIRST_WIDE or "\u2600" <= letter <= "\u27bf" else _OTHER
