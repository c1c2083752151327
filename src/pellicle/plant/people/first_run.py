"""The token that guards the first page: printed once in the terminal, kept as a hash, gone with the first owner."""

from __future__ import annotations

import hashlib
import hmac
import secrets

from pellicle.plant.folder import Folder, write_private

GROUPS, BYTES_PER_GROUP = 5, 2


def new_token(folder: Folder) -> str:
    """Make a token, which replaces an earlier one, and return it; only its hash is kept."""
    token = "-".join(secrets.token_hex(BYTES_PER_GROUP) for _ in range(GROUPS))
    write_private(folder.first_run, _hash(token))
    return token


def fits(folder: Folder, token: str) -> bool:
    """Return whether that is the token of this plant; without one nothing fits."""
    try:
        kept = folder.first_run.read_text("utf-8")
    except OSError:
        return False
    return hmac.compare_digest(kept, _hash(token.strip().lower()))


def spend(folder: Folder) -> None:
    """Make the token useless."""
    folder.first_run.unlink(missing_ok=True)


def _hash(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
