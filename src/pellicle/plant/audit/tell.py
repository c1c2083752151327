"""What checking the chain gave, in sentences: for the page and for the command line."""

from __future__ import annotations

import re

from pellicle.errors import InputError
from pellicle.message import message, say
from pellicle.plant.audit.models import short
from pellicle.plant.audit.verify import verify_here

PRINTED = re.compile("[0-9a-f]{4,64}")


def told(printed: str = "") -> tuple[list[str], bool]:
    """Return the sentences and whether all is well: the chain whole, and a printed head found where one was given."""
    head = "".join(printed.split()).lower()
    if head and not PRINTED.fullmatch(head):
        raise InputError("plant_audit.printed_form", field="--head", read=printed)
    found = verify_here(head)
    sentences = [
        say(found.fault or message("plant_audit.whole", entries=found.entries, head=short(found.head))),
    ]
    if head and found.found is not None:
        sentences.append(say(message("plant_audit.printed_found", printed=printed, seq=found.found)))
    elif head:
        sentences.append(say(message("plant_audit.printed_missing", printed=printed)))
    return sentences, found.whole and (not head or found.found is not None)
