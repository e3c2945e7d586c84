"""The backward half of ``coverage``: what a count implies, and what it cannot say."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from formulate.domain.interval import Range
from formulate.film.apply import Array
from formulate.film.arms import arms
from formulate.film.counts import EDGE_RULE, LEVEL, Counted, for_limit, for_precision
from formulate.film.forward import Film
from formulate.film.implied import (
    EXPLANATIONS,
    LEAST_EFFECTIVE,
    Posterior,
    agrees,
    explanations,
    other_kept,
    posterior,
    weighted_quantiles,
)
from formulate.film.touching import Branches, branches, imaged_width
from formulate.workflow.film import Implied, Laid
from formulate.workflow.film_answers import Arm, Explanation, ImpliedSaid, OtherPrior, ReplicationSaid, TouchingSaid

if TYPE_CHECKING:
    from formulate.workflow.film_figures import Figures

FORWARD = ("silica", "wet", "kept", "size", "smallest", "film", "microscope")
WANTED_FACTOR = 1.5
BETWEEN_COUPONS = 0.3
"""Standard deviation of log(density) between hand-wiped coupons: judged, for planning only."""
AS_EXPECTED = "the count is what the list makes likely, or more"


def implied_said(implied: Implied, figures: Figures) -> ImpliedSaid | None:
    """What the count implies; None without counts."""
    counted, laid = implied.counted, implied.laid
    if counted is None:
        return None
    fields = laid.asked.counted
    text = " / ".join(", ".join(map(str, coupon)) for coupon in fields)
    says = "You counted {text} in fields of {area:.4g} um2."
    values: dict[str, str | float | None] = {"text": text[:200], "area": laid.asked.area_um2}
    figures.whys = {**laid.whys, "counted": figures.ledger.add("measured", says, values)}
    found = _touching(counted, laid)
    countable = found is None or found[0].countable
    film = laid.film
    ready = film is not None and implied.found is not None and countable
    said = bool(ready and implied.found is not None and implied.found.can_be_said and film and agrees(film, counted))
    told: dict[str, Range | None] = dict.fromkeys(("silica_mg_per_m2", "silica", "kept", "median_nm"))
    weights: tuple[Explanation, ...] = ()
    others: tuple[OtherPrior, ...] = ()
    if said and film is not None and implied.found is not None:
        told = _posteriors(laid, film, implied.found, figures)
        weights = _explanations(film, implied.found, figures)
        others = _others(laid, film, counted, figures)
    return ImpliedSaid.model_construct(
        particles_per_um2=_density(counted, found, figures) if countable else None,
        silica_mg_per_m2=told["silica_mg_per_m2"],
        silica=told["silica"],
        kept=told["kept"],
        median_nm=told["median_nm"],
        explanations=weights,
        tell_apart=_tell_apart(figures),
        can_be_said=said,
        says=_sentence(implied, counted, countable, said, figures),
        upper_limit=counted.best == 0,
        fields=counted.fields,
        coupons=counted.coupons,
        counted=counted.total,
        scatter=counted.scatter,
        across=counted.across,
        edge_rule=EDGE_RULE,
        effective=implied.found.effective if implied.found is not None else 0.0,
        other_priors=others,
        touching=found[1] if found is not None else None,
        replication=_replication(counted, laid, figures),
    )


def _touching(counted: Counted, laid: Laid) -> tuple[Branches, TouchingSaid] | None:
    """The two densities that touching images can mean, at the middle of the sizes."""
    film = laid.film
    if film is None or (laid.asked.tip_nm is None and counted.best <= 0):
        return None
    middle = np.array([np.median(film.sizes.median) * 1e9])
    width = float(imaged_width(middle, laid.asked.tip_nm)[0])
    both = branches(counted.best, width)
    said = TouchingSaid.model_construct(
        width_nm=width, psi=both.psi, countable=both.countable, few_per_um2=both.few, many_per_um2=both.many
    )
    return both, said


def _density(counted: Counted, found: tuple[Branches, TouchingSaid] | None, figures: Figures) -> Range:
    """Density of what shows: limits of the count, images that touch allowed for on the lower branch."""
    values = [counted.low, counted.best, counted.high]
    if found is not None and counted.best > 0:
        wide = [branches(value, found[1].width_nm).few for value in values]
        values = [one if few is None else few for one, few in zip(values, wide, strict=True)]
    at = "/implied/particles_per_um2"
    ways = {
        "chance": "Garwood's limits of one Poisson count",
        "fields": "the scatter between fields (quasi-Poisson, t on the log scale)",
        "coupons": "the scatter between coupons (quasi-Poisson, t on the log scale)",
    }
    says = "Particles that show, from the counts, less the background, over recognition and area; "
    says += f"{ways[counted.across]}."
    if counted.best == 0:
        says = "Nothing above the background was seen: an upper limit only."
    return figures.said(at, (values[0], values[1], values[2]), LEVEL, "1/um2", says, "counted", "microscope", "size")


def _posteriors(laid: Laid, film: Film, found: Posterior, figures: Figures) -> dict[str, Range | None]:
    """Silica, kept fraction and size, given the count."""
    assert laid.bottle is not None
    says = "Draws weighed by how likely each makes the count: {what}."

    def one(field: str, values: Array, unit: str, what: str) -> Range:
        low, best, high = (float(v) for v in weighted_quantiles(values, found.weights, [0.025, 0.5, 0.975]))
        at = f"/implied/{field}"
        return figures.said(at, (low, best, high), LEVEL, unit, says.format(what=what), "counted", *FORWARD)

    return {
        "silica_mg_per_m2": one("silica_mg_per_m2", film.silica_g * 1e3, "mg/m2", "silica on the surface"),
        "silica": one("silica", laid.bottle, "mass fraction", "silica in the bottle"),
        "kept": one("kept", film.kept["particles"], "1", "fraction of the particles kept"),
        "median_nm": one("median_nm", film.sizes.median * 1e9, "nm", "size of the particles"),
    }


def _explanations(film: Film, found: Posterior, figures: Figures) -> tuple[Explanation, ...]:
    weights = explanations(film, found)
    says = "Weight of the draws in which this takes most from the count, compared with its middle before counting."
    rests = [figures.whys[name] for name in ("counted", *FORWARD) if name in figures.whys]
    why = figures.ledger.add("calculated", says, {}, rests)
    told = [
        Explanation.model_construct(explanation=name, says=EXPLANATIONS.get(name, AS_EXPECTED), weight=weight)
        for name, weight in sorted(weights.items(), key=lambda pair: -pair[1])
    ]
    figures.why.update({f"/implied/explanations/{index}": why for index in range(len(told))})
    return tuple(told)


def _others(laid: Laid, film: Film, counted: Counted, figures: Figures) -> tuple[OtherPrior, ...]:
    """Silica in the bottle under two other priors of the kept fraction."""
    setting = laid.setting
    if setting is None or setting.kept.is_exact or laid.bottle is None:
        return ()
    told = []
    for index, (kept, factor) in enumerate(other_kept(film, setting.kept)):
        found = posterior(film, counted, factor)
        silica = None
        if found.can_be_said:
            low, best, high = (float(v) for v in weighted_quantiles(laid.bottle, found.weights, [0.025, 0.5, 0.975]))
            says = f"Silica in the bottle if {kept.typical:.2g} were usually kept."
            at = f"/implied/other_priors/{index}/silica"
            silica = figures.said(at, (low, best, high), LEVEL, "mass fraction", says, "counted", *FORWARD)
        told.append(OtherPrior.model_construct(kept_typical=kept.typical, silica=silica, effective=found.effective))
    return tuple(told)


def _tell_apart(figures: Figures) -> tuple[Arm, ...]:
    says = "Errors of counting, dosing, weighing and sizing in quadrature on the log scale; judged, common practice."
    why = figures.ledger.add("assumed", says, {})
    told = [
        Arm.model_construct(arm=one.name, narrows=one.narrows, to_factor=one.to_factor, says=one.says) for one in arms()
    ]
    figures.why.update({f"/implied/tell_apart/{index}": why for index in range(len(told))})
    return tuple(told)


def _sentence(implied: Implied, counted: Counted, countable: bool, said: bool, figures: Figures) -> str:
    """What the count says, in a sentence or two."""
    film = implied.laid.film
    if not countable:
        says = (
            "The images run together: near this count one number can mean two densities, so it is refused. "
            "Measure the covered area, or the mass."
        )
    elif film is None:
        says = "Nothing is known of the composition: only the density of what shows can be said."
    elif not said:
        says = (
            "Cannot be said: hardly any draw agrees with this count "
            f"({implied.found.effective if implied.found else 0:.0f} effective, {LEAST_EFFECTIVE:.0f} needed), "
            "so an assumption behind them is wrong."
        )
    elif counted.best == 0:
        says = "Nothing was seen above the background: an upper limit, and no proof of none."
    else:
        says = "The count fixes silica times kept over size cubed; the parts follow from what was assumed of each."
    if counted.across == "fields" and counted.coupons < 3:
        says += " Limits are of these coupons: fewer than three say nothing of how others scatter."
    rests = [figures.whys["counted"]]
    figures.why["/implied/says"] = figures.ledger.add("calculated", "{says}", {"says": says}, rests)
    return says


def _replication(counted: Counted, laid: Laid, figures: Figures) -> tuple[ReplicationSaid, ...]:
    """How many fields on how many coupons for a wanted precision, or a wanted upper limit."""
    what = laid.asked
    told = []
    mean = counted.total / counted.fields
    scatter = max(1.0, counted.scatter) if counted.across == "fields" else 1.0
    plan = for_precision(max(mean, 0.5), WANTED_FACTOR, BETWEEN_COUPONS, scatter)
    if mean > 0 and plan is not None:
        told.append(("the density to x/÷1.5, coupons that scatter by 30 %", plan))
    expected = float(np.median(laid.film.seen)) if laid.film is not None else 0.0
    if counted.best == 0 and expected > 0:
        told.append(("a limit a tenth of what was expected", for_limit(what.area_um2, expected / 10, what.recognised)))
    why = figures.ledger.add("calculated", "Fields and coupons for a wanted figure.", {}, [figures.whys["counted"]])
    figures.why.update({f"/implied/replication/{index}": why for index in range(len(told))})
    return tuple(
        ReplicationSaid.model_construct(
            wanted=wanted, coupons=plan.coupons, fields_each=plan.fields, reached=plan.reached
        )
        for wanted, plan in told
    )
