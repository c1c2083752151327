"""Cautions: what a page says at the place where a hazard is, chosen by the product.

They defer to local rules and to a process authority. Each says where it belongs, so that the sheet, the terminal page
and the screen can put it beside the step it speaks of.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from pellicle.message import Message, message
from pellicle.product import GAME, CureMethod, Form, Maker, Pack, Product, Storage
from pellicle.rules.figures import PlanQuantities, brought, known
from pellicle.rules.situation import FISH

# species whose raw meat may carry parasites that freezing or heat has to deal with; source: rules, parasites
PARASITES = GAME | {"pork"}
REVIEW, HOME, COOKING = "lethality-review", "us-home-drying", "us-cooking-guideline-2021"


class Where(StrEnum):
    """The part of the work a caution belongs to, in the order of the pages."""

    MEAT = "meat"
    FORMULA = "formula"
    CURE = "cure"
    HOUSE = "house"
    PULL = "pull"
    PACK = "pack"
    RELEASE = "release"


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution: where it stands, what it says, and what it rests on."""

    where: Where
    text: Message
    sources: tuple[str, ...]


def cautions(product: Product, quantities: PlanQuantities) -> tuple[Caution, ...]:
    """Return the cautions of a product in the order of the work; a home maker's first is always the heat-first step."""
    found = [
        *_meat(product),
        *_formula(product, quantities),
        *_house(product),
        *_pull_and_pack(product),
        *_release(product),
    ]
    order = list(Where)
    ordered = sorted(found, key=lambda caution: order.index(caution.where))
    return (*_heat_first(product), *ordered)


def passage_cautions(product: Product, found: Iterable[Caution]) -> tuple[Caution, ...]:
    """Return the cautions of a simulated passage: those ``found`` for its numbers, and what the product itself calls
    for at the house, the pull and the release; each said once, a home maker's heat-first step first."""
    own = [caution for caution in _house(product) if caution.text.id == "cautions.dehydrator"]
    *before, last = _release(product)
    every = {caution.text.id: caution for caution in (*own, *found, *_pull_and_pack(product), *before)}
    every.pop(last.text.id, None)
    every[last.text.id] = last
    order = list(Where)
    return (*_heat_first(product), *sorted(every.values(), key=lambda caution: order.index(caution.where)))


def whole_muscle(product: Product) -> bool:
    """Return whether statements made for intact muscle hold: not for ground, formed or tenderised meat."""
    return product.form is Form.WHOLE_MUSCLE


def _heat_first(product: Product) -> tuple[Caution, ...]:
    if product.maker is not Maker.HOME:
        return ()
    text = message("cautions.home_heat_first_poultry") if product.poultry else message("cautions.home_heat_first")
    return (Caution(Where.HOUSE, text, (HOME,)),)


def _meat(product: Product) -> list[Caution]:
    found = []
    if product.species == FISH:
        found.append(Caution(Where.MEAT, message("cautions.fish"), ("common-practice",)))
    if product.species in GAME:
        found.append(Caution(Where.MEAT, message("cautions.parasites_game"), (HOME,)))
    elif product.species in PARASITES:
        found.append(Caution(Where.MEAT, message("cautions.parasites_pork"), (HOME,)))
    if product.form in (Form.GROUND, Form.FORMED):
        found.append(Caution(Where.MEAT, message("cautions.ground"), (REVIEW, COOKING)))
    if product.form is Form.TENDERISED:
        found.append(Caution(Where.MEAT, message("cautions.tenderised"), (REVIEW, COOKING)))
    return found


def _formula(product: Product, quantities: PlanQuantities) -> list[Caution]:
    found = []
    if product.bags:
        found.append(Caution(Where.FORMULA, message("cautions.bag"), ("common-practice",)))
    cure = quantities.cure
    if cure is not None and not known(cure):
        found.append(Caution(Where.CURE, message("cautions.cure_unknown"), ("inspectors-calculations-handbook",)))
    if brought(cure):
        found.append(Caution(Where.CURE, message("cautions.cure_label"), ("inspectors-calculations-handbook",)))
        found.append(Caution(Where.CURE, message("cautions.cure_spoon"), ("common-practice",)))
        if product.storage is Storage.BACON:
            found.append(Caution(Where.CURE, message("cautions.bacon"), ("us-cfr-424-22",)))
    else:
        found.append(Caution(Where.CURE, message("cautions.uncured"), ("us-cfr-319-2",)))
    return found


def _house(product: Product) -> list[Caution]:
    found = [
        Caution(Where.HOUSE, message("cautions.dry_surface"), (REVIEW,)),
        Caution(Where.HOUSE, message("cautions.centre_misleads"), (REVIEW,)),
        Caution(Where.HOUSE, message("cautions.sugar_and_salt"), (REVIEW,)),
        Caution(Where.HOUSE, message("cautions.slow_start"), (REVIEW, COOKING)),
    ]
    if product.maker is Maker.HOME:
        found.append(Caution(Where.HOUSE, message("cautions.dehydrator"), (REVIEW, HOME)))
    worked = product.cure_method in (CureMethod.TUMBLED, CureMethod.INJECTED) or product.uptake.how == "tumble"
    if whole_muscle(product) and worked:
        found.append(Caution(Where.HOUSE, message("cautions.inside"), (REVIEW, COOKING)))
    if product.poultry:
        found.append(Caution(Where.HOUSE, message("cautions.poultry"), (COOKING,)))
    return found


def _pull_and_pack(product: Product) -> list[Caution]:
    found = [Caution(Where.PULL, message("cautions.aw_is_not_lethality"), (REVIEW,))]
    if product.pack is Pack.AIR:
        found.append(Caution(Where.PACK, message("cautions.mould"), (REVIEW,)))
    else:
        found.append(Caution(Where.PACK, message("cautions.opened"), (REVIEW, "us-jerky-guideline-2014")))
    if product.storage is not Storage.SHELF_STABLE:
        found.append(Caution(Where.PACK, message("cautions.keep_cold"), ("common-practice",)))
    return found


def _release(product: Product) -> list[Caution]:
    found = [Caution(Where.RELEASE, message("cautions.few_readings"), (REVIEW,))]
    if product.maker is Maker.RETAIL_EXEMPT:
        found.append(Caution(Where.RELEASE, message("cautions.retail"), ("us-food-code-3-502",)))
    found.append(Caution(Where.RELEASE, message("cautions.authority"), (REVIEW,)))
    return found
