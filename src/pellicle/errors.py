"""What goes wrong, as sentences for the person who can mend it: field, value, what is allowed, what to do."""

from __future__ import annotations

from pellicle.message import Message, Value, message, say


class PellicleError(Exception):
    """A failure with a message id and named values; its text is the sentence a person reads."""

    def __init__(self, id: str, **values: Value) -> None:
        self.message: Message = message(id, **values)
        super().__init__(id)

    def __str__(self) -> str:
        return say(self.message)


class InputError(PellicleError):
    """Something entered cannot be used as it stands. The command line ends with status 2.

    ``field`` is the dotted path or the option the value was entered under (``formula[2].amount``, ``--meat``), so
    that a page can show the sentence at its field, and stands in the sentence as ``{field}``; ``line`` and ``file``
    say where it stood, when it came from a file.
    """

    def __init__(self, id: str, *, field: str = "", line: int | None = None, **values: Value) -> None:
        super().__init__(id, field=field, **values)
        self.field = field
        self.line = line
        self.file = ""


class DataError(PellicleError):
    """A table that ships with Pellicle, or one of the user's own, has a row that cannot be right."""
