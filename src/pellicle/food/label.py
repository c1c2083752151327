"""A unit bag of undisclosed seasoning, made an ingredient from its label: nutrition panel, ingredient order, nitrite.

A label leaves much open: which sugar, how much of what stands under carbohydrate dissolves, what the sodium belongs to.
What is taken here errs where it can towards binding less water, so that the product reads wetter; ``spread`` and
``water_sd`` carry the doubt on to the water activity, and a remark says what was taken.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from pellicle.errors import InputError
from pellicle.food.composition import Composition
from pellicle.food.ingredient import BAG, Ingredient
from pellicle.food.label_order import Order, expected_share, read_order
from pellicle.food.label_panel import SALT_PER_SODIUM, Panel, read_panel, sodium_of_agents
from pellicle.message import Message, message
from pellicle.product import Bag

WHOLE_G = 100.0
# The law lets a panel's sodium and sugars be exceeded by 20 %: taken as two standard deviations.
# source: us-label-tolerance
READ_SD = 0.10
# assumed: common practice; a share taken from the ingredient order, not from the panel
ASSUMED_SD = 0.50
# assumed: common practice; whether a sugar is sucrose or glucose halves or doubles what it binds
SUGARS_MIXED_SD = 0.30
SUGARS_UNNAMED_SD = 0.40
# Water of a dry seasoning blend, g per 100 g, and its standard deviation, kg/kg. assumed: common practice
DRY_BLEND_WATER_G = 3.0
ASSUMED_WATER_SD = 0.02
READ_WATER_SD = 0.005
# A panel rounded line by line may come out this far over 100 g. assumed: common practice
MOST_SUM_G = 105.0
# More than this that no line of the panel explains is said aloud, g per 100 g. assumed: common practice
UNEXPLAINED_G = 15.0
# How far a panel may stand against the order of its list before it is said: roundings. assumed: common practice
ORDER_TOLERANCE = 1.10

# A seasoning with cure in it declares at least this; less is a percentage typed as a fraction. assumed: common practice
WEAKEST_BAG = 0.0004


def bag_ingredient(bag: Bag) -> Ingredient:
    """Return the ingredient that a unit bag's label describes, per kg, with the spread that the label leaves.

    Salt is the sodium that is not in the declared nitrite and nitrate. Sugars are divided among those that the list
    names, by the shares to be expected of a list in falling order; where it names none they count as sucrose, which
    binds least. What the panel does not tell is taken from the order and said in ``remarks``. ``nitrite_known`` is
    False where the label is silent, or its list names a source of nitrite that the declaration does not cover.
    InputError, under ``bag.NAME``, for shares and figures that no label can hold.

    >>> bag = Bag("smoky bag", 1.0, 20.0, 0.005, None, {"sodium": 12.0, "carbohydrate": 60, "sugars": 50, "protein": 2,
    ...     "fat": 1}, ("sugar", "salt", "spices", "sodium nitrite"))
    >>> made = bag_ingredient(bag)
    >>> round(made.composition.solute("salt"), 4), round(made.composition.solute("sucrose"), 4), made.nitrite_known
    (0.3008, 0.5, True)
    """
    field = f"bag.{bag.name}"
    agents = _agents(bag, field)
    panel, order = read_panel(bag.per_100g, bag.name, field), read_order(bag.order)
    if panel.sodium is None and not order.length:
        raise InputError("food.bag_says_nothing", field=field, name=bag.name)
    salt = _salt(panel, order, agents)
    sweet = _sweet(panel, order, salt.grams + sum(agents.values()))
    composition, said = _whole(panel, {"salt": salt.grams, **agents}, sweet, bag.name, field)
    nitrite_known, nitrate_known, silent = _declared(bag, order)
    missing = panel.missing
    remarks = [
        *([message("food.bag_panel_lacks", name=bag.name, missing=", ".join(missing))] if missing else []),
        *_unexplained(composition, bag.name),
        *sweet.remarks,
        *_contradiction(panel, order, salt.grams, bag.name),
        *([message("food.bag_sodium_salts", name=bag.name, names=", ".join(order.sodium))] if order.sodium else []),
        *silent,
    ]
    return Ingredient(
        name=bag.name,
        label=", ".join(bag.order) or bag.name,
        group=BAG,
        composition=composition,
        allergens=order.allergens,
        water_sd=ASSUMED_WATER_SD if panel.water is None else READ_WATER_SD,
        spread=MappingProxyType({"salt": salt.sd, **dict.fromkeys(sweet.grams, sweet.sd)}),
        nitrite_known=nitrite_known,
        nitrate_known=nitrate_known,
        normalised=said,
        remarks=tuple(remarks),
        sources=("us-label-tolerance", "common-practice"),
    )


@dataclass(frozen=True, slots=True)
class _Salt:
    grams: float
    sd: float


@dataclass(frozen=True, slots=True)
class _Sweet:
    """Sugars, polyols and syrup solids by species, and what is left of the carbohydrate, g per 100 g."""

    grams: Mapping[str, float]
    rest: float
    sd: float
    remarks: tuple[Message, ...]


def _agents(bag: Bag, field: str) -> dict[str, float]:
    found = {}
    for agent, share in (("nitrite", bag.nitrite_share), ("nitrate", bag.nitrate_share)):
        if share is not None and not 0 <= share <= 1:
            raise InputError(
                "food.bad_strength", field=f"{field}.{agent}", name=bag.name, agent=agent, read=f"{share:g}"
            )
        if share and share < WEAKEST_BAG:
            raise InputError(
                "food.bag_strength_too_small",
                field=f"{field}.{agent}",
                name=bag.name,
                read=f"{100 * share:.4g}",
                least=f"{100 * WEAKEST_BAG:g}",
            )
        if share:
            found[f"sodium {agent}"] = WHOLE_G * share
    if sum(found.values()) > WHOLE_G:
        raise InputError("food.strength_over_whole", field=f"{field}.nitrite", name=bag.name)
    return found


def _salt(panel: Panel, order: Order, agents: Mapping[str, float]) -> _Salt:
    if panel.sodium is None:
        return _Salt(WHOLE_G * expected_share(order.salt, order.length), ASSUMED_SD)
    return _Salt(SALT_PER_SODIUM * max(0.0, panel.sodium - sodium_of_agents(agents)), READ_SD)


def _sweet(panel: Panel, order: Order, salts: float) -> _Sweet:
    """Divide the carbohydrate: the panel's, or else what the other lines leave."""
    water = panel.water if panel.water is not None else DRY_BLEND_WATER_G
    left = max(0.0, WHOLE_G - panel.protein - panel.fat - water - (panel.ash or 0.0) - salts)
    named = sum(expected_share(at, order.length) for at in order.sugar_places)
    sugars = panel.sugars
    carbohydrate = panel.carbohydrate if panel.carbohydrate is not None else (left if order.length else sugars or 0.0)
    assumed = sugars is None
    if sugars is None:
        sugars = min(carbohydrate, WHOLE_G * named)
    species, doubt, said = _species(order, sugars)
    sd = max(ASSUMED_SD if assumed else READ_SD, doubt)
    grams = dict(species)
    for name, polyol in _divided(order.polyols or ("sorbitol",), panel.polyols).items():
        grams[name] = grams.get(name, 0.0) + polyol
    rest = max(0.0, carbohydrate - sugars - panel.polyols)
    if order.syrups and rest > panel.fibre:
        for name, syrup in _divided(order.syrups, rest - panel.fibre).items():
            grams[name] = grams.get(name, 0.0) + syrup
        rest, sd = panel.fibre, ASSUMED_SD
    return _Sweet({name: mass for name, mass in grams.items() if mass > 0}, rest, sd, said)


def _species(order: Order, sugars: float) -> tuple[Mapping[str, float], float, tuple[Message, ...]]:
    if sugars <= 0:
        return {}, 0.0, ()
    if not order.sugars:
        return {"sucrose": sugars}, SUGARS_UNNAMED_SD, (message("food.bag_sugar_unnamed"),)
    divided = _divided(order.sugars, sugars)
    if len(divided) == 1:
        return divided, 0.0, ()
    said = ", ".join(f"{mass:.3g} g {name}" for name, mass in divided.items())
    return divided, SUGARS_MIXED_SD, (message("food.bag_sugars_divided", said=said),)


def _divided(names: tuple[str, ...], grams: float) -> dict[str, float]:
    """Divide a mass among names in falling order; a name that stands twice gets both shares."""
    shares: dict[str, float] = {}
    for at, name in enumerate(names):
        shares[name] = shares.get(name, 0.0) + grams * expected_share(at, len(names))
    return shares


def _whole(
    panel: Panel, salts: Mapping[str, float], sweet: _Sweet, name: str, field: str
) -> tuple[Composition, Message | None]:
    """Put the parts together; water of a dry blend, then ash, take what the panel leaves."""
    solutes = MappingProxyType({entry: grams for entry, grams in (*salts.items(), *sweet.grams.items()) if grams})
    dry = Composition(
        protein=panel.protein, fat=panel.fat, carbohydrate=sweet.rest, ash=panel.ash or 0.0, solutes=solutes
    )
    left = WHOLE_G - float(dry.total)
    water = panel.water if panel.water is not None else max(0.0, min(DRY_BLEND_WATER_G, left))
    total = float(dry.total) + water
    if total > MOST_SUM_G:
        raise InputError(
            "food.bag_over_whole", field=f"{field}.per_100g", name=name, total=f"{total:.1f}", most=f"{MOST_SUM_G:g}"
        )
    if total > WHOLE_G:
        said = message("food.scaled", total=f"{total:.2f}", factor=f"{WHOLE_G / total:.4f}")
        return dry.with_water(water) * (1 / total), said
    rest = replace(dry, water=water, ash=float(dry.ash) + WHOLE_G - total)
    return rest * (1 / float(rest.total)), None


def _unexplained(composition: Composition, name: str) -> list[Message]:
    ash = WHOLE_G * float(composition.ash)
    return [message("food.bag_unexplained", name=name, grams=f"{ash:.0f}")] if ash > UNEXPLAINED_G else []


def _contradiction(panel: Panel, order: Order, salt: float, name: str) -> list[Message]:
    """Say where the panel cannot stand beside a list in falling order."""
    if panel.sodium is None or panel.sugars is None or order.salt is None or not order.sugar_places:
        return []
    sugar_first = order.sugar_places[0] < order.salt
    salt_first = order.salt < order.sugar_places[0]
    most_sugar = len(order.sugar_places) * salt * ORDER_TOLERANCE
    if (sugar_first and salt > ORDER_TOLERANCE * panel.sugars) or (salt_first and panel.sugars > most_sugar):
        first = "sugar" if sugar_first else "salt"
        values = {"salt": f"{salt:.1f}", "sugars": f"{panel.sugars:.1f}"}
        return [message("food.bag_order_contradicts", name=name, first=first, **values)]
    return []


def _declared(bag: Bag, order: Order) -> tuple[bool, bool, list[Message]]:
    """Return whether nitrite and nitrate are known, and what to say where they are not."""
    said = []
    nitrite = bag.nitrite_share is not None and not (bag.nitrite_share == 0 and (order.nitrite or order.natural))
    if bag.nitrite_share is None:
        said.append(message("food.bag_nitrite_silent", name=bag.name))
    elif not nitrite:
        said.append(message("food.bag_nitrite_undeclared", name=bag.name))
    nitrate = bool(bag.nitrate_share) or not (
        order.nitrate or order.natural or (not order.length and bag.nitrate_share is None)
    )
    if not nitrate:
        said.append(message("food.bag_nitrate_undeclared", name=bag.name))
    return nitrite, nitrate, said
