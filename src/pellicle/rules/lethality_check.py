"""The findings on lethality: the printed row, its humidity, warming up, and our own estimate beside the support.

"Support met?" and "our estimate" are two findings and neither overrides the other; where they disagree a process
authority has to be asked. What a simulation finds can speak against a process; for it, only a log can.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from pellicle.measured.series import Series
from pellicle.message import Message, message
from pellicle.product import Form
from pellicle.rules.humidity_gate import GateFinding, HumidityEvidence, HumidityOption, judge, option
from pellicle.rules.lethality_holds import judge_hold
from pellicle.rules.lethality_targets import target_for
from pellicle.rules.verdict import Check, Group, Verdict
from pellicle.rules.words import apart, logs, times, together
from pellicle.safety.facts import LethalityFacts
from pellicle.safety.lethality import Lethality
from pellicle.safety.process_times import seconds_at_humidity, warming_s
from pellicle.safety.table_hold import TableHold, holds
from pellicle.safety.wetness import Wetness, dried_before, wetness

# 50 to 130 F in total, s (us-cooking-guideline-2021, p. 24).
MOST_COME_UP_S = 21600.0
MINUTE, HOUR = 60.0, 3600.0
COOKING, APPENDIX = "us-cooking-guideline-2021", "us-appendix-a-1999"
FISH = "fish"
START_C = 10.0  # 50 F: below it nothing grows on the way up (us-cooking-guideline-2021, p. 24)
PUT_IN_S = 600.0


@dataclass(frozen=True, slots=True)
class Support:
    """What the plant names (document, option, hold at a wet bulb) and typed times of steam or of a closed oven.

    ``as_studied``: the plant's record shows what a validated hold was tried with, and a log cannot show.
    """

    document: str = ""
    humidity_option: str = ""
    wet_bulb_hold: str = ""
    steam_s: float | None = None
    sealed_s: float | None = None
    form: Form | None = None
    on: date | None = None
    as_studied: bool = False


def lethality_checks(
    series: Series,
    facts: LethalityFacts,
    found: Mapping[str, Lethality],
    support: Support,
    unit_told: bool = True,
    sock_doubted: bool = False,
    on_a_word: bool = False,
) -> tuple[Check, ...]:
    """Return the findings on a series: row, humidity, warming up, support, one estimate per organism, disagreement.

    ``unit_told``: the log names its unit. ``sock_doubted``: at some time its sock read too warm.
    ``on_a_word``: its humidity counts only because somebody is said to have seen the sock wet.
    """
    doubts = [
        id
        for id, doubted in (
            ("sock_doubted", sock_doubted),
            ("sock_word", on_a_word and not sock_doubted),
            # a wet bulb or a humidity that no dry bulb stands beside was compared with nothing
            ("no_dry_bulb", series.air_c is None and not series.simulated),
        )
        if doubted
    ]
    salmonella = next(iter(found.values()))
    row = row_check(salmonella, facts)
    gate = _doubted(humidity_check(series, facts, support), doubts)
    began_c = first_core_c(series)
    spent_s = None if began_c is None else warming_s(series, lethal_s(salmonella))
    come_up = come_up_check(spent_s, facts, began_c)
    backing = _doubted(support_check(series, row, gate, come_up, support, facts), doubts)
    estimates = [estimate_check(one, facts) for one in found.values()]
    checks = [
        backing,
        with_its_humidity(row, gate),
        gate,
        come_up,
        *[_doubted(check, doubts) for check in estimates if check is not None],
    ]
    if not unit_told:
        checks = [_withheld(check, "unit_untold") for check in checks]
    disagree = disagreement(checks)
    if series.simulated:
        checks = [as_predicted(check) for check in checks]
    return (*checks, *disagree)


def row_check(found: Lethality, facts: LethalityFacts) -> Check:
    """Return whether the coldest piece held a printed row: of the table for its kind of meat, never of another."""
    title = message("rules_lethality.title_row")
    base = Check(
        "lethality.row", title, Verdict.CANNOT_TELL, title, unit="min", direction="at least", sources=(APPENDIX,)
    )
    if facts.species in ("", FISH):
        return replace(base, why=message(f"rules_lethality.row_{'no_species' if not facts.species else 'fish'}"))
    held = found.hold
    if held is None:
        return replace(base, why=found.withheld.get("table", title))
    row = held.row
    at = f"{row.temperature_c:.1f} °C ({row.fahrenheit:.0f} °F)"
    value, needed = held.held_s / MINUTE, row.held_s / MINUTE
    verdict = Verdict.MET if held.met else Verdict.NOT_MET
    id = "row_met" if held.met else "row_missed"
    if row.from_memory:
        verdict, id = Verdict.CANNOT_TELL, "row_memory"
    said, bound = times(held.held_s, row.held_s)
    return replace(
        base,
        verdict=verdict,
        why=message(
            f"rules_lethality.{id}",
            at=at,
            held=said,
            needed=bound,
            log=f"{row.log:g}",
            table=str(message(f"rules_lethality.table_{row.table if facts.poultry else 'meat'}")),
            ramp="?" if found.table_ramp is None else logs(found.table_ramp),
        ),
        value=value,
        limit=needed,
        margin=value - needed,
        digits=1,
        clause=str(message("rules_lethality.clause_poultry" if facts.poultry else "rules_lethality.clause_meat")),
        sources=row.sources,
    )


def with_its_humidity(row: Check, gate: Check) -> Check:
    """Return the finding on the printed row: held, it is met only once the humidity that goes with it is."""
    if row.verdict is not Verdict.MET or gate.verdict is Verdict.MET:
        return row
    why = together(row.why, message("rules_lethality.row_needs_humidity", humidity=gate.verdict.value))
    return replace(row, verdict=Verdict.CANNOT_TELL, why=why)


def humidity_check(series: Series, facts: LethalityFacts, support: Support) -> Check:
    """Return whether the humidity of the plant's named option went with a printed row that was held.

    Any row of the table may be the one (us-cooking-guideline-2021, p. 34): each that was met ends the cooking time at
    its own moment, and the one with the best verdict stands.
    """
    title = message("rules_lethality.title_humidity")
    base = Check("lethality.humidity", title, Verdict.CANNOT_TELL, title, unit="min", direction="at least")
    base = replace(base, sources=(COOKING,))
    if not support.humidity_option:
        id = "gate_by_hold" if support.wet_bulb_hold else "gate_none_named"
        return replace(base, why=message(f"rules_lethality.{id}"))
    chosen = option(support.humidity_option)
    shown = wetness(series, facts.surface_aw)
    met = [held for held in holds(series, facts) if held.met]
    judged = [judge(chosen, _evidence(series, held, chosen, support, shown), support.on) for held in met]
    none = judge(chosen, HumidityEvidence(steam_s=support.steam_s, sealed_s=support.sealed_s), support.on)
    order = (Verdict.MET, Verdict.CANNOT_TELL, Verdict.NOT_MET)
    began = first_core_c(series)
    if began is not None and began > START_C:
        # the cooking time runs from entry into the heated house, and that was not logged
        judged = [_doubtful(one, "gate_began_warm", at=f"{began:.0f} °C") for one in judged]
    gate = min(judged, key=lambda one: (order.index(one.verdict), -_margin(one)), default=none)
    return replace(
        base,
        verdict=gate.verdict,
        why=gate.why,
        value=_in_minutes(gate.value_s),
        limit=_in_minutes(gate.needed_s),
        margin=None if gate.value_s is None else _margin(gate) / MINUTE,
        clause=chosen.clause,
        sources=chosen.sources,
    )


def _margin(gate: GateFinding) -> float:
    return (gate.value_s or 0.0) - (gate.needed_s or 0.0)


def _in_minutes(seconds: float | None) -> float | None:
    return None if seconds is None else seconds / MINUTE


def lethal_s(found: Lethality) -> float | None:
    """Return when the first printed row was reached, s; None if none was."""
    return None if found.hold is None else found.hold.reached_s


def first_core_c(series: Series) -> float | None:
    """Return the first reading of the core, degC; None without one."""
    if series.core_c is None:
        return None
    rows = np.flatnonzero(np.isfinite(series.core_c))
    if rows.size == 0:
        return None
    times = series.time_s[rows]
    # a probe is often read before it is put in: what it reads in its first ten minutes counts from the coldest
    return float(np.min(series.core_c[rows][times <= times[0] + PUT_IN_S]))


def come_up_check(seconds: float | None, facts: LethalityFacts, began_c: float | None = None) -> Check:
    """Return whether the product spent at most six hours between 50 and 130 F before a lethal row was reached.

    A record that begins with the core (``began_c``, degC) above 50 F does not show how long it took to there.
    """
    title = message("rules_lethality.title_come_up")
    limit = MOST_COME_UP_S / HOUR
    base = Check("lethality.come_up", title, Verdict.CANNOT_TELL, title, unit="h", limit=limit, digits=1)
    base = replace(base, clause="cooking guideline 2021, p. 24", sources=(COOKING,))
    if seconds is None:
        return replace(base, why=message("rules_lethality.come_up_unknown"))
    value = seconds / HOUR
    verdict = Verdict.MET if value <= limit else Verdict.NOT_MET
    inside = message("rules_lethality.come_up_inside") if facts.inside else None
    if verdict is Verdict.MET and began_c is not None and began_c > START_C:
        why = message("rules_lethality.come_up_began_warm", at=f"{began_c:.0f} °C", h=f"{value:.1f}")
        return replace(base, why=together(why, inside), value=value, margin=limit - value)
    hours = apart(value, limit, 1)[0]
    why = together(message(f"rules_lethality.come_up_{'met' if verdict is Verdict.MET else 'missed'}", h=hours), inside)
    return replace(base, verdict=verdict, why=why, value=value, margin=limit - value)


def support_check(
    series: Series, row: Check, gate: Check, come_up: Check, support: Support, facts: LethalityFacts
) -> Check:
    """Return whether what the plant's named document asks for was done: row, humidity and warming up, or a hold."""
    title = message("rules_lethality.title_support")
    base = Check("lethality.support", title, Verdict.CANNOT_TELL, title, clause=support.document)
    if support.wet_bulb_hold:
        hold: GateFinding = judge_hold(support.wet_bulb_hold, series, facts.species, support.form, support.as_studied)
        verdict = worst(hold.verdict, come_up.verdict)
        why = together(hold.why, message("rules_lethality.support_come_up", verdict=come_up.verdict.value))
        margin = None if hold.value_s is None else _margin(hold) / MINUTE
        value, needed = _in_minutes(hold.value_s), _in_minutes(hold.needed_s)
        found = replace(base, verdict=verdict, why=why, value=value, limit=needed, margin=margin)
        return replace(found, unit="min", direction="at least", sources=("buege-2006",))
    if not support.humidity_option:
        id = "support_which" if support.document.strip() else "support_none"
        return replace(base, why=message(f"rules_lethality.{id}", document=support.document), sources=(COOKING,))
    if not support.document.strip():
        return replace(base, why=message("rules_lethality.support_undocumented"), sources=(COOKING,))
    verdict = worst(row.verdict, gate.verdict, come_up.verdict)
    why = message(
        "rules_lethality.support_parts",
        row=row.verdict.value,
        humidity=gate.verdict.value,
        come_up=come_up.verdict.value,
    )
    return replace(base, verdict=verdict, why=why, sources=tuple(dict.fromkeys((*row.sources, *gate.sources))))


def estimate_check(found: Lethality, facts: LethalityFacts) -> Check | None:
    """Return our own estimate of one organism against its target: by the lower bound of what is credited while wet.

    Met where the bound reaches the target, cannot tell where only the estimate does, not met else; None without a
    target.
    """
    target = target_for(found.organism, facts.species)
    if target is None:
        return None
    title = message("rules_lethality.title_estimate", organism=found.label)
    base = Check(
        f"lethality.estimate.{found.organism}",
        title,
        Verdict.CANNOT_TELL,
        title,
        Group.PRODUCT,
        limit=target.target,
        unit="log",
        direction="at least",
        digits=1,
        clause=target.clause,
        sources=tuple(dict.fromkeys((*found.sources, *target.sources))),
        blocking=target.blocks,
    )
    if not facts.species:
        return replace(base, value=found.wet_lower, why=message("rules_lethality.estimate_no_species"))
    if found.wet is None or found.wet_lower is None:
        return replace(base, why=found.withheld["wet"])
    verdict = estimate_verdict(found, target.target)
    id = {Verdict.MET: "met", Verdict.NOT_MET: "missed", Verdict.CANNOT_TELL: "between"}[verdict]
    cool = (found.wet_cool or 0.0) / found.wet if found.wet > 0.0 else 0.0
    if verdict is Verdict.MET and found.wet_lower * (1.0 - cool) < target.target:
        verdict, id = Verdict.CANNOT_TELL, "cool"
    if found.from_memory:
        verdict, id = Verdict.CANNOT_TELL, "memory"
    lower, bound = apart(found.wet_lower, target.target, 1)
    why = message(
        f"rules_lethality.estimate_{id}",
        wet=logs(found.wet),
        lower=lower,
        target=bound,
        credited=f"{(found.credited_s or 0.0) / MINUTE:.0f} min",
    )
    return replace(base, verdict=verdict, why=why, value=found.wet_lower, margin=found.wet_lower - target.target)


def estimate_verdict(found: Lethality, target: float) -> Verdict:
    """Return the verdict of an estimate on a target; withheld numbers give cannot tell."""
    if found.wet is None or found.wet_lower is None:
        return Verdict.CANNOT_TELL
    if found.wet_lower >= target:
        return Verdict.MET
    return Verdict.CANNOT_TELL if found.wet >= target else Verdict.NOT_MET


def disagreement(checks: list[Check]) -> tuple[Check, ...]:
    """Return the finding that support and estimate say different things, where they do: the worst of the estimates that
    have to be met."""
    by_id = {check.id: check for check in checks}
    support = by_id["lethality.support"].verdict
    estimates = [one.verdict for one in checks if one.id.startswith("lethality.estimate.") and one.blocking]
    if not estimates or {support, worst(*estimates)} != {Verdict.MET, Verdict.NOT_MET}:
        return ()
    id = "disagree_support" if support is Verdict.MET else "disagree_estimate"
    title = message("rules_lethality.title_disagree")
    return (
        Check(
            "lethality.disagree",
            title,
            Verdict.CANNOT_TELL,
            message(f"rules_lethality.{id}"),
            Group.INFORMATION,
            sources=("lethality-review",),
            blocking=False,
        ),
    )


def as_predicted(check: Check) -> Check:
    """Return a check of a simulated series: what would be met is only predicted, and waits for a log."""
    if check.verdict is not Verdict.MET:
        return check
    return replace(
        check, verdict=Verdict.CANNOT_TELL, why=together(check.why, message("rules_lethality.only_predicted"))
    )


def worst(*verdicts: Verdict) -> Verdict:
    """Return the verdict of several that all have to be met: not met before cannot tell before met."""
    order = list(Verdict)
    return min(verdicts, key=order.index)


def _doubtful(found: GateFinding, id: str, **values: str) -> GateFinding:
    """What would be met cannot be told, for a reason."""
    if found.verdict is not Verdict.MET:
        return found
    why = together(found.why, message(f"rules_lethality.{id}", **values))
    return replace(found, verdict=Verdict.CANNOT_TELL, why=why)


def _doubted(check: Check, doubts: list[str]) -> Check:
    for id in doubts:
        check = _withheld(check, id)
    return check


def _withheld(check: Check, id: str) -> Check:
    why: Message = together(check.why, message(f"rules_lethality.{id}"))
    if id in ("sock_word", "no_dry_bulb") and check.verdict is not Verdict.MET:
        return check
    return check if check.verdict is Verdict.CANNOT_TELL else replace(check, verdict=Verdict.CANNOT_TELL, why=why)


def _evidence(
    series: Series, held: TableHold, chosen: HumidityOption, support: Support, shown: Wetness | None
) -> HumidityEvidence:
    reached = held.reached_s or 0.0
    dried = dried_before(series, shown, reached)
    humid = None if chosen.humidity is None else seconds_at_humidity(series, chosen.humidity, until_s=reached)
    return HumidityEvidence(
        cook_s=reached - float(series.time_s[0]),
        endpoint_c=held.row.temperature_c,
        humid_s=humid,
        steam_s=support.steam_s,
        sealed_s=support.sealed_s,
        dried_s=dried,
    )
