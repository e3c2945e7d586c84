"""The public function ``coverage``."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from formulate.catalog.store import open_catalog
from formulate.errors import UsageError
from formulate.workflow.api import compute, product_options
from formulate.workflow.film_answers import CoverageAnswer

Number = float | str
Counts = str | Sequence[int] | Sequence[Sequence[int]]


def coverage(
    source: str | Path | None = None,
    *,
    silica: Number | None = None,
    film_former: Number | None = None,
    diameter_nm: Number | None = None,
    wet_g_per_m2: Number | None = None,
    kept: Number | None = None,
    passes: int | None = None,
    field_um: Number | tuple[float, float] | None = None,
    counted: Counts | None = None,
    covered: Number | None = None,
    smallest_nm: Number | None = None,
    tip_nm: Number | None = None,
    recognised: Number | None = None,
    background: Number | None = None,
    application: str | None = None,
    form: str | None = None,
    dilution: str | None = None,
    jurisdiction: str | None = None,
    date: str | None = None,
    claim: str | None = None,
    substrate: str | None = None,
    seed: int | None = None,
) -> CoverageAnswer:
    """What is left on the surface, and what counts under a microscope imply.

    Parameters
    ----------
    source
        The pasted text (str), a file (Path), or None where ``silica`` says what matters.
    silica, film_former
        Mass fraction in the product; ``film_former`` only where there is no list.
    diameter_nm
        70, "50:100" or "lognormal:70:1.3:number" (or mass, z). None: assumed, and said.
    wet_g_per_m2, kept, passes
        Liquid put on in one coat, fraction left after wiping, number of coats.
    field_um
        Side of a square field, or both sides (5, "5x8", (5, 8)).
    counted
        Counts of fields, or of coupons with fields: [4, 7, 3], [[4, 7, 3], [5, 6]], "4,7,3/5,6".
    covered
        Covered fraction of the area, where it was measured instead of counts.
    smallest_nm, tip_nm
        Smallest height that shows over the surface; radius of the tip.
    recognised, background
        Chance that a particle that shows is counted; mean count per field on a blank.
    application
        A row of ``applications.csv``; None: by the form.
    form, dilution, jurisdiction, date, claim, substrate, seed
        As for :func:`formulate.read`.

    Raises
    ------
    UsageError
        For what cannot be read or cannot be: what is wrong, and what would be right.
    """
    from formulate.workflow.coverage_answer import coverage_answer

    if source is None and silica is None:
        raise UsageError(
            "Neither a list nor an amount of silica was given.",
            "coverage",
            "what is left depends on what is in the product",
            "a list, or --silica 0.005",
        )
    if source is not None and film_former is not None:
        raise UsageError(
            "film-former goes without a list only.",
            "the option film-former",
            "the list tells the film formers",
            "leave it out",
        )
    given = {
        "silica": silica,
        "film_former": film_former,
        "diameter_nm": diameter_nm,
        "wet_g_per_m2": wet_g_per_m2,
        "kept": kept,
        "passes": passes,
        "field_um": "x".join(map(_text, field_um)) if isinstance(field_um, tuple) else field_um,
        "counted": _counts(counted),
        "covered": covered,
        "smallest_nm": smallest_nm,
        "tip_nm": tip_nm,
        "recognised": recognised,
        "background": background,
        "application": application,
    }
    options = {
        **product_options(form, dilution, jurisdiction, date, claim, substrate),
        **{name: None if value is None else _text(value) for name, value in given.items()},
    }
    done = compute("" if source is None else source, "implied", options, seed)
    return coverage_answer(done, open_catalog(), source is not None)


def _text(value: object) -> str:
    return repr(value) if isinstance(value, float) else str(value)


def _counts(counted: Counts | None) -> str | None:
    """Counts as text: fields parted by commas, coupons by slashes."""
    if counted is None or isinstance(counted, str):
        return counted
    coupons = [one if isinstance(one, Sequence) else [one] for one in counted]
    if all(not isinstance(one, Sequence) for one in counted):
        coupons = [[field for coupon in coupons for field in coupon]]
    return "/".join(",".join(str(field) for field in coupon) for coupon in coupons)
