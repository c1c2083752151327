"""The state of air as a JSON document under ``pellicle.air/1``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pellicle.answers.air import AirAnswer


def air_document(answer: AirAnswer) -> dict[str, Any]:
    """Return the state of air as a document: temperatures in C, pressures in Pa, humidity in %."""
    from pellicle.report.air_model import AirDocument

    return AirDocument.model_validate(answer).model_dump(mode="json", by_alias=True)
