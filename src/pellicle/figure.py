"""A figure: a number with its range, unit, kind and origin. Made in ``answers``, never inside ensembles."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pellicle.message import Message


class Kind(StrEnum):
    """How a figure came about."""

    MEASURED = "measured"
    COMPUTED = "computed"
    BOUND = "bound"
    ASSUMED = "assumed"


@dataclass(frozen=True, slots=True)
class Figure:
    """A number as it is shown: value and range in ``unit``, the level of the range, how it was got and from what.

    ``low`` or ``high`` may be None for a one-sided bound; both are None where no range is known. ``digits`` is the
    number of decimals its uncertainty bears. ``inputs`` name what it was computed from, in the reader's words and
    units.
    """

    value: float | None
    unit: str
    low: float | None = None
    high: float | None = None
    level: float = 0.90
    kind: Kind = Kind.COMPUTED
    digits: int = 2
    how: Message | None = None
    inputs: tuple[tuple[str, str], ...] = ()
    sources: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"a figure's range runs upwards: {self.low} to {self.high}")

    @property
    def text(self) -> str:
        """Value with its unit, to the digits its uncertainty bears.

        >>> Figure(52.31, "kg", 51.2, 53.4, digits=1).text
        '52.3 kg'
        """
        if self.value is None:
            return "unknown"
        number = f"{self.value:.{self.digits}f}"
        return f"{number} {self.unit}" if self.unit else number
