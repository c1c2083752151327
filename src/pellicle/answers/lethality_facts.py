"""What lethality needs of a product: where its germs are, how wet and sweet its surface starts, its support."""

from __future__ import annotations

from datetime import date

from pellicle.food.composition import Composition
from pellicle.food.water_activity import estimate, inputs
from pellicle.product import CureMethod, Form, Product
from pellicle.rules.lethality_check import Support
from pellicle.safety.facts import LethalityFacts

TUMBLE = "tumble"
IONS = 2.0  # of one salt in solution


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
        sugar_share=0.0 if composition is None else sugar_share(composition),
        surface_aw=None if wet is None else wet.aw,
        probe_error_c=probe_error_c,
    )


def sugar_share(composition: Composition) -> float:
    """Return the part of sugars and polyols in what is dissolved, particle by particle (0 to 1).

    A salt counts twice. 1.7 of salt and 3.5 of sucrose make 0.15 (a check case of the piece):

    >>> round(sugar_share(Composition(water=78.6, solutes={"salt": 1.7, "sucrose": 3.5})), 2)
    0.15
    """
    made = inputs(composition)
    particles = made.sugar_mol + IONS * made.salt_mol + made.other_osmol
    return float(made.sugar_mol / particles) if float(particles) > 0.0 else 0.0


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
    return Support(
        plan.support, plan.humidity_option, plan.wet_bulb_hold, steam_s, sealed_s, product.form, on, plan.as_studied
    )
