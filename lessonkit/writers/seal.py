"""A seal on exported text files: a digest of all that stands in them, by which an untouched file is known."""

import re
from hashlib import blake2b
from typing import Final

OPEN_SEAL: Final = "0" * 32
"""What a writer puts where the seal belongs."""
_SEAL: Final = re.compile(rb'(lessonkit-seal(?:" content="|:))([0-9a-f]{32})', re.IGNORECASE)


def sealed(content: bytes) -> bytes:
    """Return a text with its open seal closed: ``lessonkit-seal`` and the digest of everything else."""
    return _with_seal(content, digest_of(content))


def is_untouched(content: bytes) -> bool:
    """Tell whether a text is, letter by letter, as it was sealed; False for one without a seal."""
    found = _SEAL.search(content)
    return found is not None and found[2].decode() == digest_of(_with_seal(content, OPEN_SEAL))


def has_seal(content: bytes) -> bool:
    """Tell whether a text bears a seal, right or broken."""
    return _SEAL.search(content) is not None


def digest_of(content: bytes) -> str:
    """Return the digest that seals use: 32 hexadecimal digits."""
    return blake2b(content, digest_size=16).hexdigest()


def _with_seal(content: bytes, digest: str) -> bytes:
    return _SEAL.sub(lambda found: found[1] + digest.encode(), content, count=1)
