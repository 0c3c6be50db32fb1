"""Every kind of finding that loading can make."""

from typing import Final

from lessonkit.source.finding import Code, Level

UNREADABLE: Final = Code("LK101", "unreadable-file", Level.ERROR)
ENCODING: Final = Code("LK102", "wrong-encoding", Level.ERROR)
TOO_LARGE: Final = Code("LK103", "file-too-large", Level.ERROR)
UNSEEN: Final = Code("LK104", "unseen-character", Level.ERROR)
EMPTY: Final = Code("LK105", "empty-file", Level.ERROR)
SYNTAX: Final = Code("LK106", "not-yaml", Level.ERROR)
DUPLICATE_FIELD: Final = Code("LK107", "duplicate-field", Level.ERROR)
TAG: Final = Code("LK108", "tag-not-allowed", Level.ERROR)
ALIAS: Final = Code("LK109", "too-many-copies", Level.ERROR)
DEPTH: Final = Code("LK110", "too-deep", Level.ERROR)
SEVERAL: Final = Code("LK111", "several-records", Level.ERROR)
NUMBER: Final = Code("LK112", "leading-zero", Level.ERROR)
FIELD_NAME: Final = Code("LK113", "field-not-a-word", Level.ERROR)
CUT_OFF: Final = Code("LK114", "text-cut-off", Level.ADVICE)
NO_KIND: Final = Code("LK121", "no-kind", Level.ERROR)
UNKNOWN_KIND: Final = Code("LK122", "unknown-kind", Level.ERROR)
UNKNOWN_FIELD: Final = Code("LK131", "unknown-field", Level.ERROR)
MISSING_FIELD: Final = Code("LK132", "missing-field", Level.ERROR)
WRONG_VALUE: Final = Code("LK133", "wrong-value", Level.ERROR)
WRONG_COUNT: Final = Code("LK134", "wrong-number-of-items", Level.ERROR)
SAME_ID: Final = Code("LK141", "same-id", Level.ERROR)

CODES: Final = (
    UNREADABLE,
    ENCODING,
    TOO_LARGE,
    UNSEEN,
    EMPTY,
    SYNTAX,
    DUPLICATE_FIELD,
    TAG,
    ALIAS,
    DEPTH,
    SEVERAL,
    NUMBER,
    FIELD_NAME,
    CUT_OFF,
    NO_KIND,
    UNKNOWN_KIND,
    UNKNOWN_FIELD,
    MISSING_FIELD,
    WRONG_VALUE,
    WRONG_COUNT,
    SAME_ID,
)
"""All of them, in order of number."""
