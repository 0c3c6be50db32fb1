"""What every record has: an id, a title, and the file it came from."""

import msgspec


class Part(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True, gc=False):
    """A piece of a record. Frozen; its fields are named as in the author's file.

    Nothing in a record leads back to it, so Python need not search it for circles, which saves memory.
    """


class Record(Part, frozen=True, kw_only=True):
    """A record as its author wrote it. ``path`` is the file it came from, as the user named it."""

    kind: str
    id: str
    title: str
    path: str = ""
