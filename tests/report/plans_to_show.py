"""Invented plans to show: numbers of the right size, made up by hand, none of them computed by the models."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from pellicle.answers.plan_answer import (
    CureAnswer,
    CurvePoint,
    Like,
    LikeLine,
    PlanAnswer,
    PlanLine,
    Pull,
    RackPull,
    Worth,
    YieldAt,
)
from pellicle.figure import Figure
from pellicle.message import Message
from pellicle.rules.cautions import Caution, Where
from pellicle.rules.verdict import Check, Group, Verdict, in_order
from pellicle.source import Known, Source


@dataclass(frozen=True, slots=True)
class Words(Message):
    """A text that needs no table: its id is what it says."""

    def __str__(self) -> str:
        return self.id


RAW_KG = 84.0
PULL_KG = 52.3

LINES = (
    ("beef top round", 100.0, 84.0, ()),
    ("water", 12.0, 10.08, ()),
    ("brown sugar", 8.0, 6.72, ()),
    ("glycerol", 3.0, 2.52, ()),
    ("salt", 1.9, 1.6, ("2.1 % with the cure",)),
    ("curing salt, 6.25 % nitrite", 0.24, 0.202, ("150 ppm nitrite",)),
    ("sodium erythorbate", 0.05, 0.042, ("500 ppm",)),
    ("soy sauce", 1.6, 1.34, ("0.25 % salt",)),
)


def _line(name: str, percent: float, kg: float, carries: tuple[str, ...]) -> PlanLine:
    return PlanLine(
        ingredient=name,
        label=name,
        kg=kg,
        exact_kg=percent / 100 * RAW_KG,
        percent_of_raw=percent,
        percent_of_total=percent / 1.2679,
        percent_of_finished=None if name == "water" else percent / 0.623,
        is_meat=name.startswith("beef"),
        is_cure="nitrite" in name,
        allergens=("soy", "wheat") if name.startswith("soy") else (),
        carries=tuple(Words(text) for text in carries),
    )


def _curve() -> tuple[CurvePoint, ...]:
    weights = [(105.4 - 1.5 * step, None) for step in range(40)]
    weights += [(PULL_KG, Words("pull")), (46.4, Words("named jerky from here"))]
    return tuple(_point(kg, mark) for kg, mark in sorted(weights, key=lambda pair: -pair[0]))


def _aw(water_kg: float) -> float:
    return min(0.985, 0.55 + 0.45 * (water_kg / 75.0) ** 0.35)


def _point(kg: float, mark: Message | None) -> CurvePoint:
    water = kg - 33.0
    aw = _aw(water)
    return CurvePoint(
        kg=kg,
        percent_of_raw=100 * kg / RAW_KG,
        percent_of_marinated=100 * kg / 105.4,
        water_kg=water,
        aw=aw,
        aw_low=aw - 0.02,
        aw_high=min(0.995, aw + 0.02),
        mpr=water / 18.0,
        salt_percent=100 * 1.8 / kg,
        sugar_percent=100 * 9.0 / kg,
        brine_percent=100 * 1.8 / (1.8 + water),
        inside=kg <= PULL_KG,
        mark=mark,
    )


CHECKS = (
    Check(
        "own-2",
        Words("Wet bulb 60.0 °C for 40 min, before any drying"),
        Verdict.CANNOT_TELL,
        Words("No run was entered, so nothing is known of the hold. Enter the probe log of this batch."),
        Group.OWN,
        clause="plan version 4, limit 2",
    ),
    Check(
        "own-1",
        Words("Ingoing nitrite, tumbled"),
        Verdict.MET,
        Words("Counted by the method's own arithmetic on green weight."),
        Group.OWN,
        value=150.3,
        limit=156.0,
        unit="ppm",
        margin=5.7,
        clause="plan version 4, limit 1",
    ),
    Check(
        "cure.ingoing",
        Words("Ingoing nitrite, tumbled whole muscle"),
        Verdict.MET,
        Words("150 ppm of green weight, compared unrounded."),
        Group.RULE,
        value=150.3,
        limit=200.0,
        unit="ppm",
        margin=49.7,
        clause="9 CFR 424.21(c)",
        sources=("invented-rule",),
    ),
    Check(
        "aw.limit",
        Words("Water activity of the wettest pieces at the pull"),
        Verdict.CANNOT_TELL,
        Words("Computed, not read: no reading of this product is on file. Read five pieces of an equalised batch."),
        Group.RULE,
        value=0.85,
        limit=0.85,
        digits=2,
        clause="9 CFR 430.1",
        sources=("invented-rule",),
    ),
    Check(
        "lethality",
        Words("Lethality"),
        Verdict.CANNOT_TELL,
        Words("No run yet."),
        Group.RULE,
    ),
    Check(
        "mpr.jerky",
        Words("Moisture to protein, to be named jerky"),
        Verdict.NOT_MET,
        Words("An identity, never a measure of keeping quality. It is met from 46.4 kg down."),
        Group.INFORMATION,
        value=1.08,
        limit=0.75,
        digits=2,
        margin=-0.33,
        clause="labelling policy, entry jerky",
        blocking=False,
    ),
)

SOURCES = (
    Source("invented-rule", "An invented rule book, part 9", Known.SEEN, "for these tests"),
    Source("invented-table", "An invented table of compositions", Known.SEEN),
    Source("remembered-constant", "An invented constant from memory", Known.MEMORY),
)


def beef_strips() -> PlanAnswer:
    """84 kg of beef strips, tumbled, pull weight known."""
    return PlanAnswer(
        product="Juniper cider strips",
        jurisdiction="us",
        on="2026-11-25",
        sentence=Words(
            "Pull at 52.3 kg (51.2 to 53.4); nothing that can be told now is over its limit, 3 cannot be told."
        ),
        refused=None,
        raw_kg=RAW_KG,
        total_kg=106.504,
        marinated_kg=105.4,
        marinated_low_kg=104.6,
        marinated_high_kg=106.1,
        lines=tuple(_line(*line) for line in LINES),
        cure=CureAnswer(
            agent="sodium nitrite",
            method="tumbled",
            ingoing_ppm=150.3,
            basis="on green weight, everything taken up",
            limit_ppm=200.0,
            verdict="met",
            worst_case_ppm=None,
            finished_undepleted_ppm=241.4,
            largest_lawful_kg=0.2688,
            arithmetic=(Words("0.202 kg of cure × 6.25 % nitrite ÷ 84.00 kg of green weight = 150 ppm"),),
            sources=("invented-rule",),
        ),
        pull=Pull(
            aw=0.85,
            confidence=0.95,
            kg=PULL_KG,
            percent_of_raw=62.26,
            percent_of_marinated=49.62,
            low_kg=51.2,
            high_kg=53.4,
            likely_kg=54.6,
            batch_mean_aw=0.828,
            reading_at_most=0.821,
            piece_sd=0.010,
            worth=(
                Worth(Words("three lots with readings"), 1.4),
                Worth(Words("one weighing of the marinated meat"), 0.3),
            ),
        ),
        curve=_curve(),
        yields=(
            YieldAt("trimmed", 84.0, 62.26),
            YieldAt("marinated", 105.4, 49.62),
            YieldAt("purchased", 92.5, 56.54),
        ),
        checks=in_order(list(CHECKS)),
        cautions=(
            Caution(
                Where.CURE, Words("Weigh cure on a scale fine enough for it, never by the spoon."), ("invented-rule",)
            ),
            Caution(
                Where.HOUSE,
                Words("A dry surface protects germs. Heat counts only while it is moist."),
                ("invented-rule",),
            ),
            Caution(
                Where.PULL,
                Words("Water activity 0.85 stops growth; it does not reduce what is there."),
                ("invented-rule",),
            ),
            Caution(Where.RELEASE, Words("Local rules come first."), ("invented-rule",)),
        ),
        assumptions=(Words("Pickup is not weighed: 93 to 98 % of the solution is taken to go in."),),
        facts=(Words("Salt with what the cure and the soy sauce carry: 2.36 % of green weight."),),
        sources=SOURCES,
        scale_division_kg=0.002,
        figures={
            "/pull/kg": Figure(
                PULL_KG,
                "kg",
                51.2,
                53.4,
                digits=1,
                how=Words("solids on the rack + water left"),
                sources=("invented-table",),
            )
        },
    )


def refused() -> PlanAnswer:
    """The same product with more cure than the limit allows; still carrying amounts, to see that none gets out."""
    plan = beef_strips()
    assert plan.cure
    cure = dataclasses.replace(plan.cure, ingoing_ppm=312.5, verdict="not met", largest_lawful_kg=0.2688)
    over = dataclasses.replace(CHECKS[2], verdict=Verdict.NOT_MET, value=312.5, margin=-112.5)
    return dataclasses.replace(
        plan,
        sentence=Words("Do not make this: the cure gives 312 ppm of nitrite, and 200 ppm is the limit."),
        refused=Words("The cure is over its limit, so no amounts are printed. Lower the cure and plan again."),
        cure=cure,
        checks=in_order([over, *CHECKS[:2]]),
    )


def with_racks() -> PlanAnswer:
    """Three racks, one of them marked, one not weighed yet."""
    plan = beef_strips()
    racks = (
        RackPull("rack 1", 2.1, 19.72, 10.84, 49.6, False),
        RackPull("rack 2", 2.1, None, None, 49.6, False),
        RackPull("rack 3", 2.34, 19.55, 10.88, 49.6, True),
    )
    return dataclasses.replace(plan, pull=dataclasses.replace(plan.pull, racks=racks))


def with_like() -> PlanAnswer:
    """Matched to the taste per bite of another product."""
    lines = (
        LikeLine("salt", 3.05, 3.60, 1.18, 1.9, 2.24),
        LikeLine("brown sugar", 12.8, 9.1, 0.71, 8.0, 5.68),
    )
    like = Like(
        "House classic strips",
        lines,
        52.3,
        51.0,
        0.83,
        0.83,
        150.3,
        150.3,
        (Words("Cure and accelerator stay as they are: they follow the meat, not the taste."),),
    )
    return dataclasses.replace(beef_strips(), like=like)


def long_names() -> PlanAnswer:
    """Twenty lines, several with very long names."""
    plan = beef_strips()
    names = (
        "seasoning bag of undisclosed composition with smoked paprika, garlic, onion, mustard and natural flavours",
        "coarse black pepper",
        "juniper berries, crushed, sieved between two and four millimetres",
    )
    extra = tuple(
        _line(f"{names[at % 3]} {at}", 0.3, 0.252, ("spoon says 3 tbsp; weighs 24 g",) if at % 4 == 0 else ())
        for at in range(12)
    )
    return dataclasses.replace(plan, lines=plan.lines + extra, total_kg=109.528)


def without_cure() -> PlanAnswer:
    """No nitrite at all."""
    plan = beef_strips()
    lines = tuple(line for line in plan.lines if not line.is_cure)
    checks = tuple(check for check in plan.checks if "nitrite" not in str(check.title))
    return dataclasses.replace(plan, lines=lines, cure=None, checks=checks, total_kg=106.302)


def out_of_reach() -> PlanAnswer:
    """The formula cannot come down to its target in the range the model holds for."""
    plan = beef_strips()
    pull = Pull(
        aw=0.50,
        confidence=0.95,
        kg=None,
        percent_of_raw=None,
        percent_of_marinated=None,
        low_kg=None,
        high_kg=None,
        likely_kg=None,
        batch_mean_aw=None,
        reading_at_most=None,
        piece_sd=0.010,
        why_not=Words("Even with nearly all water gone the wettest pieces stay above 0.50."),
    )
    return dataclasses.replace(
        plan, sentence=Words("No weight can be named: 0.50 is out of reach for this formula."), pull=pull
    )


def hostile() -> PlanAnswer:
    """Names that try to be markup for the sheet, the web or the terminal."""
    plan = beef_strips()
    names = (
        '#text(size: 90pt)[BIG] #panic("x")',
        "*bold* _it_ $x^2$ \\ @ref <label>",
        "<script>alert(1)</script>",
        "red\x1b[31mred\x1b[2J",
    )
    lines = tuple(
        dataclasses.replace(line, label=name, ingredient=name)
        for line, name in zip(plan.lines[1:5], names, strict=True)
    )
    return dataclasses.replace(
        plan, product='#eval("1+1") = Heading $a$ \\', lines=(plan.lines[0], *lines, *plan.lines[5:])
    )


def tiny() -> PlanAnswer:
    """A home batch of 1.2 kg, everything scaled down."""
    plan = beef_strips()
    share = 1.2 / RAW_KG
    lines = tuple(dataclasses.replace(line, kg=round((line.kg or 0) * share, 4)) for line in plan.lines)
    pull = dataclasses.replace(
        plan.pull, kg=PULL_KG * share, low_kg=51.2 * share, high_kg=53.4 * share, likely_kg=54.6 * share
    )
    curve = tuple(
        dataclasses.replace(point, kg=point.kg * share, water_kg=point.water_kg * share) for point in plan.curve
    )
    return dataclasses.replace(
        plan,
        raw_kg=1.2,
        total_kg=1.5215,
        marinated_kg=1.506,
        marinated_low_kg=1.494,
        marinated_high_kg=1.516,
        lines=lines,
        pull=pull,
        curve=curve,
        figures={},
    )


def crowded() -> PlanAnswer:
    """Everything at once: twenty long lines, six racks, another product, fourteen checks, many sources and cautions."""
    plan = long_names()
    racks = tuple(RackPull(f"rack {at}", 2.1, 19.72, 10.84, 49.6, at == 3) for at in range(1, 7))
    long_reason = Words(
        "Computed from what the label says, which leaves a good deal open: the panel rounds, the order only "
        "bounds them, and the bag does not say how much of it is salt. Ask the maker for a full composition."
    )
    checks = [dataclasses.replace(CHECKS[2 + at % 3], id=f"more-{at}", why=long_reason) for at in range(8)]
    sources = tuple(
        Source(f"invented-{at}", f"An invented handbook of meat and salt, volume {at}, table 7.{at}", Known.SEEN)
        for at in range(25)
    )
    said = Words(
        "What is said here takes about one line of the page, and sometimes a little more than that, as cautions do."
    )
    cautions = tuple(
        Caution(where, said, ("invented-rule",)) for where in (*Where, Where.HOUSE, Where.HOUSE, Where.HOUSE)
    )
    return dataclasses.replace(
        plan,
        pull=dataclasses.replace(plan.pull, racks=racks),
        like=with_like().like,
        checks=in_order([*CHECKS, *checks]),
        sources=SOURCES + sources,
        cautions=cautions,
    )


ALL = {
    "beef_strips": beef_strips,
    "refused": refused,
    "with_racks": with_racks,
    "with_like": with_like,
    "long_names": long_names,
    "without_cure": without_cure,
    "out_of_reach": out_of_reach,
    "hostile": hostile,
    "tiny": tiny,
    "crowded": crowded,
}
