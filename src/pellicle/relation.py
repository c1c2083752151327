"""Published relations: a plain function, the key of its source, and the range over which the source holds.

``@relation`` hands the function back unchanged and knows nothing of compilers, so one body serves people, arrays and
the kernel. The range is data: it is checked on inputs and results outside any kernel, by ``outside``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, TypeVar

import numpy as np

F = TypeVar("F", bound=Callable[..., Any])

RESULT = "result"


@dataclass(frozen=True, slots=True)
class Relation:
    """One published relation: its function, source keys (``sources.toml``) and range of validity per argument."""

    name: str
    function: Callable[..., Any]
    sources: tuple[str, ...]
    valid: Mapping[str, tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Outside:
    """A value that left the range over which its relation is known to hold; it travels as a flag up to the verdict."""

    relation: str
    argument: str
    low: float
    high: float
    limit_low: float
    limit_high: float


RELATIONS: dict[str, Relation] = {}


def relation(source: str | tuple[str, ...], valid: Mapping[str, tuple[float, float]]) -> Callable[[F], F]:
    """Register a function as a published relation and return it unchanged.

    ``source`` is a key, or several, of ``sources.toml``. ``valid`` gives ``(low, high)`` for arguments by name and,
    under ``"result"``, for what is returned; bounds are inclusive and in the argument's own unit.

    >>> @relation("own-arithmetic", valid={"x": (0, 1)})
    ... def doubled(x):
    ...     return 2 * x
    >>> doubled(0.5), RELATIONS.pop("pellicle.relation.doubled").sources
    (1.0, ('own-arithmetic',))
    """
    keys = (source,) if isinstance(source, str) else tuple(source)

    def register(function: F) -> F:
        name = f"{function.__module__}.{function.__qualname__}"
        RELATIONS[name] = Relation(name, function, keys, MappingProxyType(dict(valid)))
        return function

    return register


def of(function: Callable[..., Any]) -> Relation:
    """Return the registration of a relation; KeyError if the function is none."""
    return RELATIONS[f"{function.__module__}.{function.__qualname__}"]


def outside(function: Callable[..., Any], **values: Any) -> tuple[Outside, ...]:
    """Return a flag for each named value (or ``result=``) that leaves the relation's range; NaN counts as outside."""
    flags = []
    for argument, (low, high) in of(function).valid.items():
        if argument in values:
            value = np.asarray(values[argument], dtype=float)
            if value.size and not bool(np.all((value >= low) & (value <= high))):
                flags.append(
                    Outside(of(function).name, argument, float(np.nanmin(value)), float(np.nanmax(value)), low, high)
                )
    return tuple(flags)
