"""What is looked at before anything is served; each refusal is one sentence with its way out."""

from __future__ import annotations

import errno
import shutil
import socket
from pathlib import Path

from pellicle.errors import InputError, PellicleError
from pellicle.message import Message, message

# assumed: under the first, records could be lost in the middle of a batch; under the second it is time to think of it
LEAST_FREE_MB, LITTLE_FREE_MB = 50, 1000
MEGABYTE = 1_000_000


def check_disk(folder: Path) -> Message | None:
    """Return a warning where little is free; PellicleError where too little is."""
    free = shutil.disk_usage(folder).free // MEGABYTE
    if free < LEAST_FREE_MB:
        raise PellicleError("plant_start.disk_full", free=free, folder=str(folder), least=LEAST_FREE_MB)
    return message("plant_start.disk_little", free=free, folder=str(folder)) if free < LITTLE_FREE_MB else None


def check_port(host: str, port: int) -> None:
    """Refuse a port that another program has, or that this user may not have."""
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OverflowError:
            raise InputError("plant_start.port_range", field="--port", port=port) from None
        except OSError as error:
            taken = error.errno == errno.EADDRINUSE
            reason = "plant_start.port_taken" if taken else "plant_start.port_refused"
            raise InputError(reason, field="--port", port=port, other=port + 1) from None
