"""What lethality needs of a product: where its germs are, how wet and sweet its surface starts, its support."""

from __future__ import annotations

from datetime import date

from pellicle.food.composition import Composition
from pellicle.food.water_activity import estimate
from pellicle.product import CureMethod, Form, Product
from pellicle.rules.lethality_check import Support
from pellicle.safety.facts import LethalityFacts

TUMBLE = "tumble"


def facts_of(product: Product, composition: Composition | None = None, probe_error_c: float = 0.0) -> LethalityFacts:
    """Return what lethality has to know of a product; ``composition`` is the mixture as it goes into the house.

    >>> from types import SimpleNamespace as Plain
    >>> made = Plain(species="beef", form=Form.WHOLE_MUSCLE, cure_method=CureMethod.TUMBLED, uptake=Plain(how=""))
    >>> facts_of(made).inside
    True
    """
    wet = None if composition is None else estimate(composition)
    return LethalityFacts(
        species=product.species,
        inside=germs_inside(product),
        sugar_share=0.0 if wet is None else float(wet.shares.get("sugars", 0.0)),
        surface_aw=None if wet is None else wet.aw,
        probe_error_c=probe_error_c,
    )


def germs_inside(product: Product) -> bool:
    """Return whether germs were carried into whole muscle: tumbled, injected or needled."""
    if product.form is Form.TENDERISED:
        return True
    carried = product.cure_method in (CureMethod.TUMBLED, CureMethod.INJECTED) or product.uptake.how == TUMBLE
    return product.form is Form.WHOLE_MUSCLE and carried


def support_of(
    product: Product, on: date | None = None, steam_s: float | None = None, sealed_s: float | None = None
) -> Support:
    """Return what the plant's own plan names for its lethality, and typed times of steam or of a closed oven."""
    plan = product.plan
    return Support(plan.support, plan.humidity_option, plan.wet_bulb_hold, steam_s, sealed_s, product.form, on)
