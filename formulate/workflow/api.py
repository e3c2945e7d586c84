"""The public functions: one for each command, same name, same options."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date as date_
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from formulate.catalog.store import open_catalog
from formulate.domain.line import IDENTIFIED
from formulate.domain.model import digest
from formulate.domain.place import Citation
from formulate.domain.reason import Node, tree
from formulate.domain.vocabulary import FORMS, JURISDICTIONS
from formulate.errors import UsageError
from formulate.intake import text_of_path
from formulate.reading import check_list_size
from formulate.workflow.answers import (
    Answer,
    BriefAnswer,
    IngredientRoles,
    ReadAnswer,
    ReadLine,
    RolesAnswer,
    WhyAnswer,
)
from formulate.workflow.assemble import brief_answer, read_answer, roles_answer
from formulate.workflow.graph import Graph, Inputs, Output
from formulate.workflow.nodes import build_graph

if TYPE_CHECKING:
    from formulate.workflow.amount_answers import BoundsAnswer, IngredientBounds


_DILUTION = re.compile(r"\s*\d{1,5}(?:[.,]\d{1,3})?\s*:\s*\d{1,5}(?:[.,]\d{1,3})?\s*")


@cache
def shared_graph() -> Graph:
    """The graph that the public functions share in one process."""
    return build_graph(open_catalog())


def text_id(text: str) -> str:
    """Id of a pasted text: hash of its content."""
    return digest(text)


def compute(
    source: str | Path, wanted: str, options: Mapping[str, str | None], seed: int | None = None
) -> dict[str, Output]:
    """Outputs up to a node for a pasted text (str) or a file (Path).

    Raises InputError for what cannot be read, UsageError for a seed below nought.
    """
    if seed is not None and seed < 0:
        raise UsageError(
            f"A seed of {seed} cannot be used.",
            "the option seed",
            "chance starts from a whole number",
            "give 0 or more",
        )
    text = text_of_path(source) if isinstance(source, Path) else source
    check_list_size(text)
    return shared_graph().get(Inputs(text, text_id(text), (), options, seed), wanted)


def read(
    source: str | Path,
    *,
    form: str | None = None,
    dilution: str | None = None,
    jurisdiction: str | None = None,
    date: str | None = None,
    claim: str | None = None,
    substrate: str | None = None,
    seed: int | None = None,
) -> ReadAnswer:
    """What was understood of a list, line by line.

    Parameters
    ----------
    source
        The pasted text itself (str), or the file that holds it (Path).
    form, dilution, jurisdiction, date, claim, substrate, seed
        As the flags of the same names; None means not said.

    Raises
    ------
    InputError
        If a file cannot be read at all, is binary or too large. Text never raises.
    """
    options = product_options(form, dilution, jurisdiction, date, claim, substrate)
    return read_answer(compute(source, "product", options, seed), open_catalog())


def roles(
    source: str | Path,
    *,
    form: str | None = None,
    dilution: str | None = None,
    jurisdiction: str | None = None,
    date: str | None = None,
    claim: str | None = None,
    substrate: str | None = None,
    seed: int | None = None,
) -> RolesAnswer:
    """What every ingredient is doing in this mixture, with reasons. Parameters and errors as for :func:`read`."""
    options = product_options(form, dilution, jurisdiction, date, claim, substrate)
    return roles_answer(compute(source, "roles", options, seed), open_catalog())


def brief(
    source: str | Path,
    *,
    form: str | None = None,
    dilution: str | None = None,
    jurisdiction: str | None = None,
    date: str | None = None,
    claim: str | None = None,
    substrate: str | None = None,
    seed: int | None = None,
) -> BriefAnswer:
    """The mixture in a few sentences, each with its reason. Parameters and errors as for :func:`read`."""
    options = product_options(form, dilution, jurisdiction, date, claim, substrate)
    return brief_answer(compute(source, "brief", options, seed), open_catalog())


def bounds(
    source: str | Path,
    *,
    rule: str = "none",
    measured: str | Sequence[str] = (),
    one_percent_after: str | None = None,
    suppose: str | None = None,
    form: str | None = None,
    dilution: str | None = None,
    jurisdiction: str | None = None,
    date: str | None = None,
    claim: str | None = None,
    substrate: str | None = None,
    seed: int | None = None,
) -> BoundsAnswer:
    """How much of each ingredient there can be, hard bounds and plausible ranges, with totals.

    Parameters
    ----------
    rule
        The disclosure law that the list is under: none, eu-label, us-cosmetic-label, eu-detergent, sds-us, sds-eu,
        sds-ca.
    measured
        QUANTITY=VALUE, one or several: nonvolatile, silica (mass fraction or with a per cent sign), density (g/mL), ph.
    one_percent_after
        Name of the last ingredient above one per cent.
    suppose
        NAME=VALUE of a total or an ingredient: whether that is possible and what it forces on the others.
    source, form, dilution, jurisdiction, date, claim, substrate, seed
        As for :func:`read`.

    Raises
    ------
    UsageError
        For a rule, measurement, name or supposition that cannot be read.
    """
    from formulate.workflow.amounts import check_rule
    from formulate.workflow.bounds_answer import bounds_answer

    check_rule(rule)
    lines = (measured,) if isinstance(measured, str) else tuple(measured)
    options = {
        **product_options(form, dilution, jurisdiction, date, claim, substrate),
        "rule": rule,
        "measured": "\n".join(lines) or None,
        "one_percent_after": one_percent_after,
    }
    return bounds_answer(compute(source, "draws", options, seed), open_catalog(), suppose)


def product_options(*values: str | None) -> dict[str, str | None]:
    """Options about the product by name, checked as the command line checks them. Raises UsageError."""
    options = dict(zip(("form", "dilution", "jurisdiction", "date", "claim", "substrate"), values, strict=True))
    for name, allowed in (("form", FORMS), ("jurisdiction", JURISDICTIONS)):
        value = options[name]
        if value is not None and value not in allowed:
            raise UsageError(
                f'"{value[:40]}" is no {name} that the program knows.',
                name,
                f"it is one of {', '.join(allowed)}",
                "choose one",
            )
    diluted = options["dilution"]
    if diluted is not None and not _DILUTION.fullmatch(diluted):
        raise UsageError(
            f'"{diluted[:40]}" is no dilution.',
            "dilution",
            "two numbers are needed: parts of the product, and parts of the whole or of water",
            "write it as 1:20",
            "usage-dilution",
        )
    given = options["date"]
    try:
        options["date"] = date_.fromisoformat(given).isoformat() if given else None
    except ValueError:
        raise UsageError(
            f'"{(given or "")[:40]}" is not a date.',
            "date",
            "rules of law depend on the date",
            "write it as 2026-11-25",
            "usage-date",
        ) from None
    return options


def why(answer: Answer, asked: str) -> WhyAnswer:
    """The tree of reasons behind one figure or statement of an answer.

    Parameters
    ----------
    answer
        What :func:`read`, :func:`roles` or :func:`brief` returned.
    asked
        A JSON pointer into the answer (``/ingredients/2/roles/0``), or the name or position of an ingredient.

    Raises
    ------
    UsageError
        If nothing in the answer goes by that pointer or name.
    """
    pointer = asked if asked.startswith("/") else pointer_of_name(answer, asked)
    found = pointer if _stands_in(answer, pointer) else ""
    while found and found not in answer.why:
        found = found.rpartition("/")[0]
    if not found:
        raise UsageError(
            f'Nothing in the answer goes by "{asked[:80]}".',
            "--why",
            "a pointer or the name of an ingredient of the list is needed",
            f"take one of: {', '.join(list(answer.why)[:4])} ... or a name as it stands in the list",
            "why-unknown",
        )
    node = tree(answer.reasons, answer.why[found])
    catalog = open_catalog()
    keys = {cited.source for cited in cited_in(node)}
    return WhyAnswer(pointer=found, tree=node, sources={key: str(catalog.source(key)["title"]) for key in sorted(keys)})


def cited_in(node: Node) -> Iterator[Citation]:
    """Every citation of a tree."""
    yield from node.citations
    for child in node.children:
        yield from cited_in(child)


def _stands_in(answer: Answer, pointer: str) -> bool:
    """Whether a JSON pointer leads to something in the answer."""
    here: Any = answer
    for step in pointer.split("/")[1:]:
        if isinstance(here, tuple):
            if not step.isdecimal() or int(step) >= len(here):
                return False
            here = here[int(step)]
        elif isinstance(here, dict):
            if step not in here:
                return False
            here = here[step]
        else:
            name = step if hasattr(here, step) else f"{step}_"
            if not hasattr(here, name) or step.startswith("_"):
                return False
            here = getattr(here, name)
    return bool(pointer)


def pointer_of_name(answer: Answer, name: str) -> str:
    """Pointer of the ingredient with this name, raw text, id or position; empty if there is none."""
    wanted = name.strip().casefold()
    parts: Sequence[Any] = getattr(getattr(answer, "deposit", None), "parts", ())
    for i, part in enumerate(parts):
        if wanted and wanted in part.name.casefold():
            return f"/deposit/parts/{i}/mg_per_m2"
    figure = next((pointer for pointer in answer.why if pointer.rpartition("/")[2] == wanted), "")
    if parts and figure:
        return figure
    field = "lines" if isinstance(answer, ReadAnswer) else "ingredients"
    rows: Sequence[ReadLine | IngredientRoles | IngredientBounds] = getattr(answer, field, ())
    for exact in (True, False):
        for i, row in enumerate(rows):
            names = [str(row.position), row.raw.casefold(), row.name.casefold(), (row.ingredient or "").casefold()]
            if wanted in names if exact else any(wanted in one for one in names[1:] if wanted):
                return f"/{field}/{i}"
    return ""


def unknown_positions(answer: Answer) -> list[int]:
    """Positions of lines that stayed unknown: neither identified, nor a class, nor withheld."""
    told = IDENTIFIED | {"class-only", "withheld"}
    if isinstance(answer, ReadAnswer):
        return [line.position for line in answer.lines if line.match.how not in told]
    if hasattr(answer, "unknown"):
        return list(answer.unknown)
    return [row.position for row in getattr(answer, "ingredients", ()) if row.how not in told]


def contradicts(answer: Answer) -> bool:
    """Whether the statements of an answer contradict each other."""
    return getattr(answer, "contradiction", "none") != "none"
