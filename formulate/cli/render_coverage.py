"""The answer of ``coverage`` as plain text: what is on the surface, what a field shows, what a count implies."""

from __future__ import annotations

from collections.abc import Iterator

from formulate.cli.render import notes_of, wrapped
from formulate.domain.interval import Range
from formulate.workflow.film_answers import CoverageAnswer, ImpliedSaid
from formulate.workflow.gate import padded

BAR = 20
FORWARD: tuple[tuple[str, str], ...] = (
    ("particles_per_um2", "particles per um2"),
    ("per_field", "particles in one field"),
    ("seen_per_field", "of these a count would give"),
    ("covered_fraction", "covered, side by side"),
    ("covered_if_overlapping", "covered, fallen at random"),
    ("visible_height_nm", "stands out of the film by, nm"),
    ("smallest_visible_nm", "smallest height that shows, nm"),
    ("unseen_mass_share", "share of silica that does not show"),
)
DEPOSIT: tuple[tuple[str, str], ...] = (
    ("wet_g_per_m2", "put on wet, g/m2"),
    ("silica_mg_per_m2", "silica, mg/m2"),
    ("solid_silica_nm", "silica as a solid layer, nm"),
    ("film_mg_per_m2", "film formers, mg/m2"),
    ("film_nm", "film formers, nm"),
    ("rest_mg_per_m2", "what else stays, mg/m2"),
    ("dry_nm", "all that stays, nm"),
)
LAYERS: tuple[tuple[str, str], ...] = (
    ("hexagonal", "as close as can be"),
    ("jammed", "fallen at random, none touching"),
    ("overlapping", "fallen at random, one on another"),
)


def coverage_lines(answer: CoverageAnswer) -> Iterator[str]:
    """Deposit, field, layers, what matters, what a count implies, notes."""
    yield from wrapped(
        f"{answer.application.title}, {answer.application.passes} coat(s), on {answer.application.surface}", "", "  "
    )
    if answer.size is not None:
        yield from wrapped(answer.size.says, "", "  ")
    yield ""
    if answer.deposit is not None:
        yield f"{'left on the surface':<36} {'low':>9} {'middle':>9} {'high':>9}   (9 in 10)"
        for field, title in DEPOSIT:
            yield from _row(title, getattr(answer.deposit, field))
        for field, title in FORWARD:
            yield from _row(title, getattr(answer, field))
        yield ""
    if answer.full_layer is not None:
        yield "a full layer, by three conventions: mg/m2, and the silica it would need in the liquid"
        for name, title in LAYERS:
            mass, needs = (getattr(answer.full_layer, f"{name}_{what}") for what in ("mg_per_m2", "silica"))
            covers = getattr(answer.full_layer, f"{name}_covers")
            part = f"{_digits(mass.best):>9} mg/m2   {_per_cent(needs)}"
            yield f"  {padded(title, 34)} covers {covers:.1%} {part}"
        yield ""
    if any(one.share for one in answer.matters):
        yield "what matters most for the number (share explained alone)"
        for one in answer.matters:
            yield f"  {padded(one.input, 24)} {one.share:>5.0%} {'█' * max(0, round(one.share * BAR))}".rstrip()
        yield ""
    if answer.implied is not None:
        yield from _implied(answer.implied)
        yield ""
    if answer.covered_means_per_um2 is not None:
        yield from _row("the covered area means, per um2", answer.covered_means_per_um2)
        yield ""
    yield from notes_of(answer)
    if answer.seed is not None:
        yield f"{answer.sampling_draws} draws, seed {answer.seed}"


def _implied(found: ImpliedSaid) -> Iterator[str]:
    yield f"counted {found.counted} in {found.fields} fields on {found.coupons} coupon(s)"
    yield from wrapped(found.says, "  ")
    for title, one in (
        ("particles that show, per um2", found.particles_per_um2),
        ("silica on the surface, mg/m2", found.silica_mg_per_m2),
        ("silica in the bottle, fraction", found.silica),
        ("fraction kept", found.kept),
        ("size, nm", found.median_nm),
    ):
        yield from _row(title, one)
    if found.touching is not None and found.touching.few_per_um2 is not None:
        many = found.touching.many_per_um2 or 0.0
        if found.touching.psi > 0.01:
            yield from wrapped(
                f"Images {found.touching.width_nm:.3g} nm wide touch: so many clumps are "
                f"{found.touching.few_per_um2:.3g} or {many:.3g} particles per um2; "
                "a mass or a covered area tells which.",
                "  ",
            )
    for explanation in found.explanations:
        if explanation.weight >= 0.005:
            bar = "█" * round(explanation.weight * BAR)
            yield f"  {explanation.weight:>4.0%} {padded(bar, BAR)} {explanation.says}"
    for other in found.other_priors:
        said = _per_cent(other.silica) if other.silica is not None else "cannot be said"
        yield f"  if {other.kept_typical:.2g} were usually kept, silica in the bottle: {said}"
    yield "  to tell them apart:"
    for arm in found.tell_apart:
        yield from wrapped(f"{arm.narrows} to x/÷{arm.to_factor:.2g}: {arm.says}", "  - ", "    ")
    for plan in found.replication:
        yield from wrapped(
            f"{plan.wanted}: {plan.fields_each} field(s) on each of {plan.coupons} coupons (gives {plan.reached:.3g})",
            "  - ",
            "    ",
        )
    yield from wrapped(found.edge_rule, "  ")


def _row(title: str, one: Range | None) -> Iterator[str]:
    if one is not None:
        yield f"{padded(title, 36)} {_digits(one.low):>9} {_digits(one.best):>9} {_digits(one.high):>9}"


def _per_cent(one: Range) -> str:
    """A fraction in per cent, low to high; what lies above all of it is said so."""
    if (one.low or 0) > 1:
        return "more than all of it"
    low, high = f"{(one.low or 0) * 100:.3g}", f"{(one.high or 0) * 100:.3g}"
    if (one.high or 0) > 1:
        return f"{low} % to more than all of it"
    return f"{low} %" if low == high else f"{low} to {high} %"


def _digits(value: float | None) -> str:
    """Three digits, small and large values with a power of ten."""
    if value is None:
        return "-"
    return "0" if value == 0 else f"{value:.3g}" if 1e-3 <= abs(value) < 1e5 else f"{value:.2e}"
