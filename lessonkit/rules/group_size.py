"""How many children a full group of an activity has."""

from lessonkit.records.activity import Organisation

_SIZES = {"individuals": 1, "pairs": 2, "threes": 3, "fours": 4}


def group_size(organisation: Organisation) -> int | None:
    """Return the children in a full group, None for the whole class and where the record does not say."""
    if organisation.form == "teams":
        return 2 * organisation.side if organisation.side else None
    if organisation.form == "squads":
        return organisation.squad.most if organisation.squad else None
    return _SIZES.get(organisation.form)


def waiting(organisation: Organisation) -> int:
    """Return how many children of a full group wait while the others move; 0 where all move."""
    size = group_size(organisation)
    if organisation.at_once is None or size is None:
        return 0
    return max(0, size - organisation.at_once)
