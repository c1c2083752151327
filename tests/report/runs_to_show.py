"""Invented passages to show: numbers of the right size, made up by hand, none of them computed by the models."""

from __future__ import annotations

import dataclasses
from types import MappingProxyType

import numpy as np
from plans_to_show import RAW_KG, Words

from pellicle.answers.lethality_answer import Mould, OrganismGrowth, OrganismLethality, ProcessMinutes
from pellicle.answers.plan_answer import RackPull
from pellicle.answers.run_answer import Counted, Left, Rest, RunAnswer, RunEnd, RunHistory, RunStepRow
from pellicle.answers.schedule_rows import ScheduleRow
from pellicle.message import Message
from pellicle.rules.cautions import Caution, Where
from pellicle.rules.verdict import Check, Group, Verdict, in_order
from pellicle.run.face_state import FaceState
from pellicle.source import Known, Source

POINTS = 241
STEPS = (("warm", 30.0), ("moist cook", 45.0), ("smoke", 90.0), ("dry", 185.0))

CHECKS = (
    Check(
        "lethality.support",
        Words("Support met?"),
        Verdict.CANNOT_TELL,
        Words("The plant names no document for its lethality."),
        clause="an invented rule",
    ),
    Check(
        "lethality.row",
        Words("Printed time and temperature held"),
        Verdict.NOT_MET,
        Words("No row was held without a break."),
        value=0.4,
        limit=0.55333333333,
        unit="min",
        direction="at least",
        digits=1,
    ),
    Check(
        "growth.known",
        Words("Growth, for information"),
        Verdict.CANNOT_TELL,
        Words("Figures of this line are from memory."),
        Group.INFORMATION,
        blocking=False,
    ),
)


def passage(steps: tuple[tuple[str, float], ...] = STEPS, credit: float | None = 13.9) -> RunAnswer:
    """A passage of so many minutes in each step, credited until the surface dries at a third of the time."""
    end = sum(minutes for _, minutes in steps)
    at = np.linspace(0.0, 1.0, POINTS)
    kg = 105.0 - 55.0 * at**1.5
    earned = None if credit is None else credit * np.clip((at - 0.1) / 0.15, 0.0, 1.0)
    return RunAnswer(
        product="Juniper cider strips",
        on="2026-11-25",
        sentence=Words("Pull at 52.3 kg / 115 lb at the most. A simulation releases nothing."),
        raw_kg=RAW_KG,
        schedule=tuple(_asked(name) for name, _ in steps),
        steps=tuple(RunStepRow(name, minutes, "time") for name, minutes in steps),
        end=RunEnd(end / 60, 50.0, 59.5, 47.4, 0.82, 0.61, 57.0, 30.0, 0.9, 0.0031),
        history=RunHistory(
            minutes=_all(end * at),
            dry_bulb_c=_all(60.0 + 10.0 * at),
            wet_bulb_c=_all(58.0 - 12.0 * at),
            rh_percent=_all(60.0 - 40.0 * at),
            core_c=_all(58.0 - 53.0 * np.exp(-12.0 * at)),
            surface_c=_all(58.0 - 53.0 * np.exp(-15.0 * at)),
            weight_percent_of_raw=_all(100.0 * kg / RAW_KG),
            aw_mean=_all(0.97 - 0.15 * at**2),
            aw_surface=_all(0.97 - 0.36 * at),
            lethality_wet=(None,) * POINTS if earned is None else _all(earned),
        ),
        governing="salmonella",
        lethality=MappingProxyType({"listeria": _organism("Listeria", 9.1, 3.0), "salmonella": _led(credit)}),
        counted=(Counted(0.0, end / 3),),
        uncounted=Words("Heat counted in these minutes: 0 to 117. At other times a face lay below 0.95."),
        process=ProcessMinutes(
            MappingProxyType({"90": 12.0}), MappingProxyType({"57.2": 31.0}), 9.0, 14.0, True, 0.0, 0.0
        ),
        growth=MappingProxyType({"staph": OrganismGrowth("Staphylococcus", 0.31, 1.4, True, None)}),
        mould=Mould(0.85, 4.0, 32.0, Words("In air mould shows after 4 to 32 days.")),
        left=Left(40.0, 7.0, 0.4, 0.6, 1300.0, 1200.0),
        drip_percent_of_marinated=8.0,
        salts_lost_percent=9.0,
        sugars_lost_percent=8.5,
        face=FaceState(57.0, 0.2, 0.1, 0.4, 0.3, (), (Words("White bloom may come."),)),
        rest=Rest(1.2, 336.0, 0.01, 20.0, 0.0078),
        pull_kg=53.1,
        pull_low_kg=51.2,
        pull_high_kg=54.4,
        pull_kg_without_run=52.3,
        pull_lightest_kg=52.3,
        drip=None,
        racks=(RackPull("rack 1", 2.1, 19.72, 10.84, 49.6, False),),
        aw_limit=0.85,
        checks=in_order(list(CHECKS)),
        cautions=(
            Caution(Where.HOUSE, Words("A dry surface protects germs."), ()),
            Caution(Where.RELEASE, Words("Known to about a factor of three."), ()),
        ),
        remarks=(Words("moist cook: the core cannot reach its target before the piece is dry."),),
        assumptions=(Words("Volume and leaks are those of the kind of house."),),
        flags=(Words("A face dries to 0.61."),),
        problem=None,
        sources=(
            Source("invented", "An invented book", Known.SEEN),
            Source("recalled", "A recollection", Known.MEMORY),
        ),
    )


def lighter() -> RunAnswer:
    """A passage whose pull weight is lighter than the 52.3 kg of the plan, and which does not come down to it."""
    racks = (RackPull("rack 1", 2.1, 19.72, 10.21, 46.0, False),)
    return dataclasses.replace(
        passage(), pull_kg=48.5, pull_low_kg=47.0, pull_high_kg=50.0, pull_lightest_kg=48.5, racks=racks
    )


def withheld() -> RunAnswer:
    """A passage of which nobody said which meat it is: nothing is credited."""
    return passage(credit=None)


def _asked(name: str) -> ScheduleRow:
    at_most: Message | None = Words("at most 9 h") if name == "dry" else None
    return ScheduleRow(name, 62.0, Words("damper shut"), None, name == "smoke", Words(f"as {name} ends"), at_most)


def _led(credit: float | None) -> OrganismLethality:
    if credit is not None:
        return _organism("Salmonella", credit, 5.0)
    one = _organism("Salmonella", 0.0, 5.0)
    none = dict.fromkeys(("wet", "wet_lower", "local", "expected", "table"))
    why = MappingProxyType({"wet": Words("Nobody said of which species the meat is.")})
    return dataclasses.replace(one, **none, why_withheld=why)  # type: ignore[arg-type]


def _organism(label: str, wet: float, target: float) -> OrganismLethality:
    return OrganismLethality(
        label, wet, 0.6 * wet, 117.0, 1.2 * wet, 1.1 * wet, 2 * wet, wet, 3 * wet, 6.5, 7.0, target, "met",
        MappingProxyType({}),
    )  # fmt: skip


def _all(values: np.ndarray) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
