"""From what people type to numbers in SI: fractions, decimal commas, several units in one entry, and exact refusals."""

from __future__ import annotations

import math
import re
import unicodedata
from decimal import Decimal

from pellicle.errors import InputError
from pellicle.units.kinds import AMBIGUOUS, EXACT_CASE, KINDS, MASS, Kind, Unit

Entry = str | float | int
Forms = tuple[str, str, str]

LONGEST_READ = 60  # characters of an entry repeated in a sentence
LONGEST_NUMBER = 100  # characters of a number worth reading

_SAME = str.maketrans(
    {
        "−": "-", "⁄": "/", "∕": "/", "º": "°", "˚": "°", "℃": "°C", "℉": "°F", "″": '"', "“": '"', "”": '"',
        "μ": "µ", "％": "%", "٪": "%",
    }
)  # fmt: skip
_NUMBER = r"(?:[0-9]+(?:\s+|-)[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9][0-9.,]*(?:[eE][+-]?[0-9]+)?|[.,][0-9][0-9.,]*)"
_TERM = re.compile(rf"\s*([+-]?)\s*({_NUMBER})\s*([^0-9]*?)(?=(?:\s+[.,]|\s*[+-]?)[0-9]|\s*\Z)")
_PLAIN = re.compile(r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
_BARE = re.compile(rf"[+-]?\s*(?:{_NUMBER}|nan|inf|infinity|∞)", re.IGNORECASE)
_NOT_FINITE = re.compile(r"[+-]?\s*(?:nan|inf|infinity|∞)(?![a-z])", re.IGNORECASE)


def quantity(value: Entry, field: str, kind: Kind, *, zero: bool = False) -> float:
    """Return what ``value`` says as a quantity of ``kind``, in SI; InputError if it cannot be read or makes no sense.

    ``zero`` allows nothing at all, with its unit: ``0 kg``.

    >>> quantity("2 lb 3 oz", "--raw", MASS)
    0.992233309375
    """
    text = entry_text(value, field, kind.forms)
    return within(measure(text, text, field, kind, kind.forms), text, field, kind, kind.forms, zero=zero)


def entry_text(value: Entry, field: str, forms: Forms) -> str:
    """Return an entry as tidy text; InputError for a bare number, an empty entry, or something that is no text."""
    if is_bare_number(value):
        raise _bare(value, field, forms)
    if not isinstance(value, str):
        raise refusal("not_text", field, str(value), forms)
    text = tidy(value)
    if not text:
        raise refusal("empty", field, "", forms)
    return text


def tidy(text: str) -> str:
    """Return ``text`` with one spelling for signs that look alike: spaces, minus, fractions, quotes, degrees.

    >>> tidy("1½\u00a0lb"), tidy("−5 ℃")
    ('1 1/2 lb', '-5 °C')
    """
    spread = "".join(f" {unicodedata.normalize('NFKC', sign)} " if _is_fraction(sign) else sign for sign in text)
    joined = re.sub(r"\bper\s+cent\b", "%", spread.translate(_SAME), flags=re.IGNORECASE)
    cubed = re.sub(r"(?<![a-zA-Z])(c?m)\^?3(?![0-9])", r"\1³", joined)
    return " ".join(cubed.split())


def measure(text: str, read: str, field: str, kind: Kind, forms: Forms) -> float:
    """Return the SI value of a tidy text of one or several numbers with units; not yet checked against limits."""
    terms = _terms(text, read, field, forms)
    units = [_unit(unit, read, field, kind, forms) for _, unit in terms]
    values = [number for number, _ in terms]
    for number, before, unit in zip(values[1:], units, units[1:], strict=False):
        if not before.chain or before.chain != unit.chain or unit.factor >= before.factor:
            raise refusal("parts", field, read, forms)
        if number * unit.factor >= before.factor:
            raise refusal("part_too_big", field, read, forms)
    if len(terms) > 1 and math.copysign(1.0, values[0]) < 0:
        raise refusal("negative", field, read, forms)
    total = sum((value - unit.zero) * unit.factor for value, unit in zip(values, units, strict=True))
    return finite(total, read, field, forms)


def within(value: float, read: str, field: str, kind: Kind, forms: Forms, *, zero: bool = False) -> float:
    """Return ``value`` if it lies in the limits of its kind; InputError with what is allowed otherwise."""
    if value == 0 and zero:
        return 0.0
    if not kind.signed and value < 0:
        raise refusal("negative", field, read, forms)
    if not kind.signed and value == 0:
        raise refusal("zero", field, read, forms)
    if value < kind.least:
        raise refusal("too_small", field, read, forms, limit=kind.least_text)
    if value > kind.most:
        raise refusal("too_large", field, read, forms, limit=kind.most_text)
    return value


def finite(value: float, read: str, field: str, forms: Forms) -> float:
    """Return ``value``; InputError if it is not a number or has no end."""
    if not math.isfinite(value):
        raise refusal("not_finite", field, read, forms)
    return value


def plain_number(text: str, read: str, field: str, forms: Forms) -> float:
    """Return a number as people write it: ``25``, ``2.5``, ``2,5``, ``1/4``, ``1 1/2``; InputError otherwise.

    >>> plain_number("1 1/2", "1 1/2 lb", "--raw", ("", "", "")), plain_number("1,5", "1,5 kg", "--raw", ("", "", ""))
    (1.5, 1.5)
    """
    if _NOT_FINITE.match(text):
        raise refusal("not_finite", field, read, forms)
    if len(text) > LONGEST_NUMBER:
        raise refusal("not_a_number", field, read, forms, part=text[:LONGEST_READ])
    if "/" in text:
        return _fraction(text, read, field, forms)
    if "," in text:
        text = _comma(text, read, field, forms)
    if not _PLAIN.fullmatch(text):
        raise refusal("not_a_number", field, read, forms, part=text)
    return finite(float(text), read, field, forms)


def refusal(id: str, field: str, read: str, forms: Forms, **values: str) -> InputError:
    """Return the error ``units.<id>``: where it stands, what was read, and three forms that would do."""
    shown = read if len(read) <= LONGEST_READ else read[: LONGEST_READ - 1] + "…"
    one, two, three = forms
    return InputError(
        f"units.{id}",
        field=field,
        line=None,
        at=field or "The entry",
        read=shown,
        one=one,
        two=two,
        three=three,
        **values,
    )


def is_bare_number(value: Entry) -> bool:
    """Return whether an entry is a number without any unit, as a number or as text.

    >>> is_bare_number(0.09), is_bare_number("1 1/2"), is_bare_number("9 %"), is_bare_number(True)
    (True, True, False, False)
    """
    return bool(_BARE.fullmatch(tidy(value))) if isinstance(value, str) else type(value) in (int, float)


def bare_number(value: Entry, field: str, forms: Forms) -> tuple[str, float]:
    """Return what was read and its value, for an entry without a unit; InputError if it is no finite number.

    >>> bare_number("-0,5", "--x", ("1", "2", "3")), bare_number(7, "--x", ("1", "2", "3"))
    (('-0,5', -0.5), ('7', 7.0))
    """
    if not isinstance(value, str):
        read = _as_typed(value)
        return read, finite(_as_float(value), read, field, forms)
    text = tidy(value)
    size = plain_number(text.lstrip("+- "), text, field, forms)
    return text, -size if text.startswith("-") else size


def _bare(value: Entry, field: str, forms: Forms) -> InputError:
    read, _ = bare_number(value, field, forms)
    return refusal("no_unit", field, read, forms)


def _as_typed(value: float) -> str:
    """Return a number as it would be typed; whole numbers of hundreds of digits by their order of size."""
    huge = isinstance(value, int) and math.isinf(_as_float(value))
    return f"{Decimal(value):.1e}" if huge else str(value)


def _as_float(value: float) -> float:
    try:
        return float(value)
    except OverflowError:
        return math.inf if value > 0 else -math.inf


def _terms(text: str, read: str, field: str, forms: Forms) -> list[tuple[float, str]]:
    """Return the (number, unit) pairs a tidy text consists of."""
    if _NOT_FINITE.match(text):
        raise refusal("not_finite", field, read, forms)
    found: list[tuple[float, str]] = []
    at = 0
    while at < len(text):
        match = _TERM.match(text, at)
        if match is None or (found and match[1]):
            raise refusal("unreadable", field, read, forms)
        sign, number, unit = match.groups()
        if unit.endswith((".", ",")) and text[match.end() : match.end() + 1].strip():
            raise refusal("unreadable", field, read, forms)
        size = plain_number(number, read, field, forms)
        found.append((-size if sign == "-" else size, _bare_unit(unit)))
        at = match.end()
    if not found or (len(found) > 1 and not all(unit for _, unit in found)):
        raise refusal("unreadable", field, read, forms)
    return found


def _bare_unit(unit: str) -> str:
    return re.sub(r"\s+and$", "", unit.strip().rstrip(".,").strip())


def _unit(name: str, read: str, field: str, kind: Kind, forms: Forms) -> Unit:
    """Return the unit a spelling stands for; InputError that says whether it is missing, misplaced or unknown."""
    if not name:
        raise refusal("no_unit", field, read, forms)
    spelling = name.lower()
    if kind is MASS and spelling in AMBIGUOUS and name not in EXACT_CASE:
        raise refusal("ambiguous_unit", field, read, AMBIGUOUS[spelling], unit=name)
    if spelling in kind.units:
        return kind.units[spelling]
    if any(spelling in other.units for other in KINDS):
        raise refusal("other_kind", field, read, forms, unit=name)
    raise refusal("unknown_unit", field, read, forms, unit=name)


def _is_fraction(sign: str) -> bool:
    return unicodedata.category(sign) == "No" and "⁄" in unicodedata.normalize("NFKC", sign)


def _fraction(text: str, read: str, field: str, forms: Forms) -> float:
    parts = re.split(r"[\s-]+", text)
    top, bottom = (int(part) for part in parts[-1].split("/"))
    whole = int(parts[0]) if len(parts) > 1 else 0
    if bottom == 0 or (len(parts) > 1 and top >= bottom):
        raise refusal("not_a_number", field, read, forms, part=text)
    return whole + top / bottom


def _comma(text: str, read: str, field: str, forms: Forms) -> str:
    """Return ``text`` with its decimal comma as a point; three digits after a comma could be thousands: refused."""
    joined = text.replace(",", "").lstrip("0") or "0"
    if re.fullmatch(r"[0-9]+,[0-9]{3}", text):
        either = (read.replace(text, joined, 1), read.replace(text, text.replace(",", "."), 1), forms[0])
        raise refusal("ambiguous_comma", field, read, either)
    if re.fullmatch(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?", text):
        raise refusal("thousands", field, read, (read.replace(text, joined, 1), *forms[:2]))
    if text.count(",") > 1 or "." in text:
        raise refusal("not_a_number", field, read, forms, part=text)
    return text.replace(",", ".")
