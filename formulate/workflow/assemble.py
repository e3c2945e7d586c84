"""Outputs of the nodes to the answers that the faces show, every figure with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from formulate._version import __version__
from formulate.catalog.store import Catalog
from formulate.domain.brief import Brief
from formulate.domain.line import IDENTIFIED, Line, Match, Reading
from formulate.domain.product import Product
from formulate.domain.reason import Ledger
from formulate.domain.roles import Attribution
from formulate.domain.vocabulary import JURISDICTIONS
from formulate.reading import add_fact, add_hazard_code, add_left_over, add_pasted
from formulate.workflow.answers import (
    BriefAnswer,
    CautionSaid,
    ConflictSaid,
    IngredientRoles,
    MatchSaid,
    ProductEcho,
    ReadAnswer,
    ReadLine,
    RolesAnswer,
)
from formulate.workflow.graph import Output
from formulate.workflow.nodes import Matches

JUDGED = "Few weights of the rules are fitted, most are judged; a probability says how strongly the rules speak."


def common(
    command: str,
    product: ProductEcho,
    notes: list[tuple[str, str]],
    why: dict[str, str],
    ledger: Ledger,
    catalog: Catalog,
) -> dict[str, Any]:
    """The keys that every answer carries; notes are pairs of sentence and reason."""
    whys = {**why, **{f"/notes/{i}": reason for i, (_, reason) in enumerate(notes)}}
    return {
        "schema_": f"formulate/{command}/1",
        "formulate": __version__,
        "data": catalog.version,
        "product": product,
        "notes": tuple(says for says, _ in notes),
        "why": whys,
        "reasons": ledger.closure(whys.values()),
    }


def echo(product: Product) -> tuple[ProductEcho, dict[str, str]]:
    """The product as an answer repeats it, with the reasons of form, claim and substrate."""
    jurisdiction = (product.jurisdiction,) if product.jurisdiction in JURISDICTIONS else ("eu", "us")
    product_echo = ProductEcho.model_construct(
        form=product.form.value,
        form_origin=product.form.origin,
        claim=product.claim.value if product.claim else None,
        substrate=product.substrate.value if product.substrate else None,
        jurisdiction=tuple(map(str, jurisdiction)),
        date=product.date,
        dilution=product.dilution,
    )
    hints = {"form": product.form, "claim": product.claim, "substrate": product.substrate}
    return product_echo, {f"/product/{name}": hint.why for name, hint in hints.items() if hint is not None}


def notes_of(reading: Reading, ledger: Ledger, judged: bool) -> list[tuple[str, str]]:
    """Notes of the reading, each with its reason; ``judged`` adds that the weights of the rules are."""
    notes = [
        (note, ledger.add("calculated", "{note}", {"note": note}, because=_whole(reading, ledger)))
        for note in reading.notes
    ]
    if judged and reading.lines:
        notes.append((JUDGED, ledger.add("assumed", JUDGED, {})))
    return notes


def _whole(reading: Reading, ledger: Ledger) -> list[str]:
    """The reasons that stand for the pasted text as a whole: its first and last line, or what was left over."""
    if reading.lines:
        ends = {reading.lines[0].id: reading.lines[0], reading.lines[-1].id: reading.lines[-1]}
        return [add_pasted(ledger, line, len(reading.lines)) for line in ends.values()]
    if reading.left_over:
        return [add_left_over(ledger, reading.left_over[0])]
    return [ledger.add("pasted", "You pasted an empty text.", {})]


def read_answer(done: Mapping[str, Output], catalog: Catalog) -> ReadAnswer:
    """What was understood, line by line."""
    reading: Reading = done["lines"].value
    found: Matches = done["matches"].value
    ledger, why = Ledger(done["product"].reasons), {}
    lines = []
    for i, (line, match, reason) in enumerate(zip(reading.lines, found.matches, found.reasons, strict=True)):
        lines.append(_read_line(line, match, catalog))
        why[f"/lines/{i}"] = add_pasted(ledger, line, len(reading.lines))
        for field in ("ingredient", "class", "subclass", "match", "cas", "ec", "name", "candidates"):
            why[f"/lines/{i}/{field}"] = reason
        if line.stated is not None:
            why[f"/lines/{i}/stated"] = found.stated[i] or reason
        why.update({f"/lines/{i}/properties/{j}": one.why for j, one in enumerate(match.properties)})
    why.update({f"/left_over/{i}": add_left_over(ledger, one) for i, one in enumerate(reading.left_over)})
    why.update({f"/facts/{name}": add_fact(ledger, name, fact) for name, fact in reading.facts.items()})
    why.update({f"/hazard_codes/{i}": add_hazard_code(ledger, code) for i, code in enumerate(reading.hazard_codes)})
    product_said, why_echo = echo(done["product"].value)
    why.update(why_echo)
    return ReadAnswer.model_construct(
        **common("read", product_said, notes_of(reading, ledger, False), why, ledger, catalog),
        lines=tuple(lines),
        left_over=reading.left_over,
        facts=reading.facts,
        hazard_codes=reading.hazard_codes,
    )


def _read_line(line: Line, match: Match, catalog: Catalog) -> ReadLine:
    return ReadLine.model_construct(
        id=line.id,
        position=line.position,
        place=line.place,
        raw=line.raw,
        name=line.name,
        ingredient=match.ingredient,
        cas=line.cas,
        ec=line.ec,
        class_=catalog.classes[match.class_].top,
        subclass=match.class_,
        class_guessed=match.class_guessed,
        match=MatchSaid.model_construct(how=match.how, confidence=match.confidence, tried=match.tried),
        stated=line.stated,
        candidates=match.candidates,
        function=line.function,
        doubtful=line.doubtful,
        properties=match.properties,
        part=line.part,
    )


def roles_answer(done: Mapping[str, Output], catalog: Catalog) -> RolesAnswer:
    """What every ingredient is doing there."""
    reading: Reading = done["lines"].value
    found: Matches = done["matches"].value
    attribution: Attribution = done["roles"].value
    ledger, why = Ledger(done["roles"].reasons), {}
    ingredients = []
    for i, (line, match, said) in enumerate(zip(reading.lines, found.matches, attribution.lines, strict=True)):
        ingredients.append(
            IngredientRoles.model_construct(
                position=line.position,
                line=line.id,
                raw=line.raw,
                name=said.name,
                ingredient=match.ingredient,
                class_=catalog.classes[match.class_].top,
                subclass=match.class_,
                class_guessed=match.class_guessed,
                how=match.how,
                confidence=match.confidence,
                fate=said.fate,
                roles=said.roles,
                also=said.also,
                corrected=said.corrected or match.how == "corrected",
            )
        )
        why[f"/ingredients/{i}"] = attribution.why_roles[i][0]
        for field in ("ingredient", "class", "subclass", "name", "how", "confidence"):
            why[f"/ingredients/{i}/{field}"] = found.reasons[i]
        why[f"/ingredients/{i}/raw"] = add_pasted(ledger, line, len(reading.lines))
        why.update({f"/ingredients/{i}/roles/{j}": reason for j, reason in enumerate(attribution.why_roles[i])})
        why.update({f"/ingredients/{i}/also/{j}": reason for j, reason in enumerate(attribution.why_also[i])})
        fate = attribution.why_fate[i]
        why[f"/ingredients/{i}/fate"] = fate if fate is not None else found.reasons[i]
    why.update({f"/conflicts/{i}": reason for i, reason in enumerate(attribution.why_conflicts)})
    why.update({f"/cautions/{i}": reason for i, reason in enumerate(attribution.why_cautions)})
    product_said, why_echo = echo(done["product"].value)
    why.update(why_echo)
    return RolesAnswer.model_construct(
        **common("roles", product_said, notes_of(reading, ledger, True), why, ledger, catalog),
        ingredients=tuple(ingredients),
        conflicts=tuple(
            ConflictSaid.model_construct(
                conflict=one.id, between=one.between, says=one.says, severity=one.severity, sources=one.sources
            )
            for one in attribution.conflicts
        ),
        cautions=tuple(
            CautionSaid.model_construct(
                caution=one.id,
                lines=one.lines,
                says=one.says,
                severity=one.severity,
                sources=one.sources,
                certainty=one.certainty,
            )
            for one in attribution.cautions
        ),
    )


def brief_answer(done: Mapping[str, Output], catalog: Catalog) -> BriefAnswer:
    """The mixture in a few sentences."""
    brief: Brief = done["brief"].value
    ledger = Ledger(done["brief"].reasons)
    why = {f"/sentences/{i}": one.why for i, one in enumerate(brief.sentences)}
    for field, reason in (
        ("carrier", brief.why_carrier),
        ("stays", brief.why_stays),
        ("evaporates", brief.why_evaporates),
        ("headline", brief.headline.why if brief.headline else None),
        ("caution", brief.caution.why if brief.caution else None),
    ):
        if reason is not None:
            why[f"/{field}"] = reason
    product_said, why_echo = echo(done["product"].value)
    why.update(why_echo)
    return BriefAnswer.model_construct(
        **common("brief", product_said, notes_of(done["lines"].value, ledger, True), why, ledger, catalog),
        sentences=brief.sentences,
        unknown=tuple(unknown_lines(done)),
        carrier=brief.carrier,
        stays=brief.stays,
        evaporates=brief.evaporates,
        headline=brief.headline,
        caution=brief.caution,
    )


def unknown_lines(done: Mapping[str, Output]) -> list[int]:
    """Positions of lines that are not identified and are neither a class nor withheld."""
    reading: Reading = done["lines"].value
    found: Matches = done["matches"].value
    told = IDENTIFIED | {"class-only", "withheld"}
    return [line.position for line, match in zip(reading.lines, found.matches, strict=True) if match.how not in told]
