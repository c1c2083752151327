"""Texts are ids with named values; words come last, from one table per language."""

from __future__ import annotations

import pytest

from pellicle.errors import InputError, PellicleError
from pellicle.message import Message, message, say, templates


def test_a_message_becomes_words() -> None:
    assert say(message("message.example", weight="52.3 kg")) == "Pull at 52.3 kg."


def test_a_message_is_its_id_and_values_until_then() -> None:
    text = message("message.example", weight="52.3 kg")
    assert text == Message("message.example", {"weight": "52.3 kg"})
    assert dict(text.values) == {"weight": "52.3 kg"}


def test_a_message_cannot_be_changed() -> None:
    text = message("message.example", weight="52.3 kg")
    with pytest.raises(TypeError):
        text.values["weight"] = "1 kg"  # type: ignore[index]


def test_a_missing_value_is_an_error_and_never_a_gap() -> None:
    with pytest.raises(KeyError, match="weight"):
        say(message("message.example"))


def test_an_unknown_id_is_an_error() -> None:
    with pytest.raises(KeyError, match=r"message\.nothing"):
        say(message("message.nothing"))


def test_a_value_with_braces_is_shown_as_it_is() -> None:
    assert say(message("message.example", weight="{weight}")) == "Pull at {weight}."


def test_every_room_has_its_own_page() -> None:
    assert {"message", "product", "table", "parameter"} <= {id.split(".")[0] for id in templates()}


def test_an_error_reads_as_its_sentence_and_knows_its_field() -> None:
    error = InputError("product.no_path", field="meat.weight", line=7, path="meat.weight", name="weight")
    assert isinstance(error, PellicleError)
    assert str(error).startswith("There is no 'weight' at meat.weight.")
    assert (error.field, error.line) == ("meat.weight", 7)
