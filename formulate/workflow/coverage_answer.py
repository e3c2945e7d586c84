"""Outputs of the film nodes to the answer of ``coverage``, every figure a range with its reason."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from formulate.catalog.store import Catalog
from formulate.domain.interval import Range
from formulate.domain.reason import Ledger
from formulate.film.apply import Spread
from formulate.film.forward import Film
from formulate.film.implied import counting_alone
from formulate.film.layers import JAMMED, shadow_of_cover
from formulate.film.matters import shares_of_variance
from formulate.workflow.amounts import Hard
from formulate.workflow.assemble import common, echo, notes_of
from formulate.workflow.film import Laid
from formulate.workflow.film_answers import ApplicationSaid, CountingAlone, CoverageAnswer, Matter
from formulate.workflow.film_figures import GOES_ON, LEVEL, Figures, forward_figures
from formulate.workflow.graph import Output
from formulate.workflow.implied_answer import implied_said

ENDLESS = (
    "Counting alone cannot tell the silica in the bottle from the fraction kept: before counting it is known to "
    "x/÷{before:.1f}, after endless counting to x/÷{after:.1f}."
)


def coverage_answer(done: Mapping[str, Output], catalog: Catalog, listed: bool) -> CoverageAnswer:
    """What is left on the surface, and what the counts imply. ``listed``: a list was given, not flags alone."""
    laid: Laid = done["deposit"].value
    hard: Hard = done["hard"].value
    ledger = Ledger(done["implied"].reasons)
    figures = Figures(ledger, laid.whys)
    film = laid.film
    product, why_product = echo(done["product"].value)
    figures.why.update(why_product)
    implied = implied_said(done["implied"].value, figures)
    clash = hard.certain.hard is None and bool(hard.certain.items)
    notes = [*(notes_of(done["lines"].value, ledger, True) if listed else []), *_notes(laid, clash, ledger)]
    alone = _alone(film, figures) if film is not None else None
    if alone is not None:
        notes.append((alone.says, figures.why["/counting_alone"]))
    shown = forward_figures(laid, film, figures) if film is not None else dict.fromkeys(EMPTY)
    application = _application(laid, figures)
    matters = _matters(film, figures) if film is not None else ()
    return CoverageAnswer.model_construct(
        **common("coverage", product, notes, figures.why, ledger, catalog),
        application=application,
        **shown,
        matters=matters,
        counting_alone=alone,
        implied=implied,
        covered_means_per_um2=_covered(laid, figures),
        sampling_draws=len(film.silica) if film is not None else 0,
        contradiction="The statements of the list contradict each other: see bounds." if clash else "none",
        seed=laid.seed if film is not None else None,
    )


EMPTY = (
    "size",
    "deposit",
    "particles_per_um2",
    "seen_per_um2",
    "per_field",
    "seen_per_field",
    "covered_fraction",
    "covered_if_overlapping",
    "visible_height_nm",
    "smallest_visible_nm",
    "unseen_mass_share",
    "full_layer",
)


def _application(laid: Laid, figures: Figures) -> ApplicationSaid:
    setting = laid.setting
    assert setting is not None
    figures.why["/application"] = laid.whys["application"]
    figures.why["/application/surface"] = laid.whys["surface"]
    return ApplicationSaid.model_construct(
        name=setting.application.name,
        title=setting.application.title,
        passes=setting.passes,
        surface=laid.surface.title,
        roughness_nm=_spread(laid.surface.roughness, figures),
    )


def _spread(roughness: Spread, figures: Figures) -> Range:
    at, says = "/application/roughness_nm", "Roughness of the surface before anything is put on."
    return figures.said(at, (roughness.low, roughness.typical, roughness.high), LEVEL, "nm", says, "surface")


def _matters(film: Film, figures: Figures) -> tuple[Matter, ...]:
    inputs = {
        "silica in the liquid": film.silica,
        "wet mass": film.wet,
        "fraction kept": film.kept["particles"],
        "size of the particles": film.sizes.moment(3),
    }
    shares = shares_of_variance(film.particles, inputs)
    says = "Share of the variance of log(particles per um2) that the input explains alone, from the draws already made."
    why = figures.ledger.add("calculated", says, {}, [figures.why["/particles_per_um2"]])
    order = sorted(inputs, key=lambda name: -shares[name])
    found = [Matter.model_construct(input=name, share=shares[name]) for name in (*order, "together")]
    figures.why.update({f"/matters/{index}": why for index in range(len(found))})
    return tuple(found)


def _alone(film: Film, figures: Figures) -> CountingAlone | None:
    found = counting_alone(film)
    if found is None:
        return None
    says = ENDLESS.format(before=found.before, after=found.after)
    figures.said("/counting_alone", (1.0, found.after, found.before), LEVEL, "1", says, *GOES_ON, "size")
    return CountingAlone.model_construct(before=found.before, after=found.after, says=says)


def _covered(laid: Laid, figures: Figures) -> Range | None:
    """Particles per um2 that a measured covered fraction means."""
    if laid.asked.covered is None:
        return None
    shadow = shadow_of_cover(laid.asked.covered)
    if laid.film is None:
        return None
    values = shadow / (np.pi / 4 * laid.film.sizes.moment(2)) * 1e-12
    says = (
        f"A covered fraction of {laid.asked.covered:g}, particles fallen at random: -ln(1 - covered) over their area."
    )
    return figures.of("/covered_means_per_um2", values, "1/um2", says, "size")


def _notes(laid: Laid, clash: bool, ledger: Ledger) -> list[tuple[str, str]]:
    """What has to be said beside the figures."""
    notes: list[str] = []
    film = laid.film
    if film is None:
        notes.append(
            "The statements of the list contradict each other, so nothing is worked out."
            if clash
            else "Nothing is known of the composition, so nothing is worked out: give a list, or --silica 0.005."
        )
    else:
        if not laid.silica_listed:
            notes.append("No line of the list is silica particles; what the list does not name is not counted here.")
        if laid.size_assumed and float(film.silica.max()) > 0:
            notes.append("Size assumed: nothing says how large the particles are.")
        over = float((film.shadow > JAMMED).mean())
        if over > 0.05:
            notes.append(
                f"In {over:.0%} of the draws there is more than particles fallen at random can lay side by side "
                f"({JAMMED}); above 1 it is no single layer: as much area as the surface, fallen at random, covers "
                "63.2 %."
            )
        if not laid.film_known:
            notes.append("No film former was given (--film-former 0.015), so burial in a film is left out.")
    if laid.asked.passes > 1:
        notes.append("Coats add up: each leaves what is kept of it and takes nothing of those before.")
    return [(says, ledger.add("assumed", "{says}", {"says": says})) for says in notes]
