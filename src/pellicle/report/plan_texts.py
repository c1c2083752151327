"""What is said of the cure and the pull, in sentences, once for terminal and paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pellicle.report.numerals import at_most, batch_digits, number, plain, span, weighed, word
from pellicle.report.plan_rows import CheckRow, judged, mark_of, pounds
from pellicle.rules.words import cut_mass
from pellicle.rules.words import plain as shortest

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pellicle.answers.cure import CureCalcAnswer
    from pellicle.answers.plan_answer import CureAnswer, PlanAnswer, Pull
    from pellicle.source import Source

PPM_DIGITS = 1


def about_text(answer: PlanAnswer, named: bool = True) -> str:
    """Return what the page is about: the product if it is to be ``named``, green weight, whose rules on which date."""
    place = {"product": plain(answer.product), "jurisdiction": plain(answer.jurisdiction).upper(), "on": answer.on}
    if answer.refused is not None:
        return word("about_refused", **place)
    return word("about" if named else "about_paper", **place, raw=weighed(answer.raw_kg), raw_lb=pounds(answer.raw_kg))


def lawful_text(cure: CureAnswer | CureCalcAnswer) -> str:
    """Return the largest lawful amount of a cure, cut off and never rounded up; empty where it is not known."""
    if cure.largest_lawful_kg is None:
        return ""
    return word("largest_lawful", amount=cut_mass(cure.largest_lawful_kg), agent=plain(cure.agent))


def cure_texts(cure: CureAnswer | CureCalcAnswer, marked: bool = True) -> list[str]:
    """Return what there is to say of a cure: amount against limit, the arithmetic, what else is official.

    The first text opens with the verdict in plain characters if ``marked``.
    """
    ppm, limit = judged(cure.ingoing_ppm, cure.limit_ppm, PPM_DIGITS), word("no_limit_known")
    if cure.limit_ppm is not None:
        limit = word("limit_ppm", ppm=shortest(cure.limit_ppm))
    ingoing = word("ppm_unknown") if cure.ingoing_ppm is None else word("ppm", ppm=ppm)
    said = word("cure_ingoing", ppm=ingoing, agent=plain(cure.agent), basis=plain(str(cure.basis)), limit=limit)
    texts = [word("cure_marked", mark=mark_of(cure.verdict), said=said) if marked else said]
    texts += [plain(str(step)) for step in cure.arithmetic]
    if cure.other_official_ppm is not None:
        texts.append(word("cure_other", ppm=number(cure.other_official_ppm, PPM_DIGITS)))
    if cure.worst_case_ppm is not None:
        texts.append(word("cure_worst", ppm=number(cure.worst_case_ppm, PPM_DIGITS)))
    if cure.finished_undepleted_ppm is not None:
        texts.append(word("cure_finished", ppm=number(cure.finished_undepleted_ppm, PPM_DIGITS)))
    return texts


def pull_texts(pull: Pull, digits: int) -> list[str]:
    """Return the words beside the pull weight: what to aim for, what it holds for, what its range means."""
    target, confidence = number(pull.aw, 2), number(100 * pull.confidence, 0)
    if pull.kg is None:
        why = plain(str(pull.why_not)) if pull.why_not is not None else word("no_pull")
        return [word("pull_unknown", aw=target, why=why)]
    texts = [word("pull_holds", kg=number(pull.kg, digits), aw=target, confidence=confidence)]
    if pull.batch_mean_aw is not None:
        texts.append(word("pull_aim", mean=at_most(pull.batch_mean_aw, 2)))
    if pull.reading_at_most is not None:
        texts.append(word("pull_reading", aw=at_most(pull.reading_at_most, 3), sd=number(pull.piece_sd, 3)))
    if pull.low_kg is not None and pull.high_kg is not None:
        texts.append(word("pull_range", span=span(pull.low_kg, pull.high_kg, digits)))
    if pull.likely_kg is not None:
        texts.append(word("pull_likely", kg=number(pull.likely_kg, digits)))
    return [" ".join(texts)]


def worth_text(pull: Pull) -> str:
    """Return what each further piece of evidence would do to the pull weight, as one sentence."""
    parts = [
        word("worth_one", evidence=plain(str(one.evidence)), kg=f"{one.kg_per_100_raw:+.1f}") for one in pull.worth
    ]
    return word("worth", parts="; ".join(parts))


def reason_text(row: CheckRow) -> str:
    """Return why a check came out as it did, and where its limit stands."""
    why = row.why if row.blocking else " ".join((row.why, word("not_blocking")))
    return word("reason_with_clause", why=why, clause=row.clause) if row.clause else why


def yields_text(answer: PlanAnswer) -> str:
    """Return the yields at the pull, each with its base and the weight of that base; empty if there are none."""
    digits = batch_digits(answer.raw_kg)
    parts = [
        word("yield_of", percent=number(one.percent, 1), base=plain(one.base), kg=number(one.base_kg, digits))
        for one in answer.yields
    ]
    return "; ".join(parts)


def allergens_text(answer: PlanAnswer) -> str:
    """Return the allergens of all lines as one sentence; empty if there are none."""
    names = sorted({plain(name) for line in answer.lines for name in line.allergens})
    return word("allergens", names=", ".join(names)) if names else ""


def sources_text(sources: Sequence[Source]) -> str:
    """Return how many sources a page rests on and how many of them are yet to be verified; empty if there are none."""
    if not sources:
        return ""
    unverified = sum(source.to_verify for source in sources)
    name = "sources_some_unverified" if unverified else "sources_all_seen"
    return word(name, count=len(sources), unverified=unverified)
