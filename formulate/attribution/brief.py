"""The mixture in a few sentences. Reads lines, matches, roles and the claim only."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from formulate.attribution.attribute import SEVERITIES
from formulate.catalog.records import Headline
from formulate.catalog.store import Catalog
from formulate.domain.brief import Brief, HeadlineSaid, Sentence
from formulate.domain.line import IDENTIFIED, Match
from formulate.domain.product import Product
from formulate.domain.reason import Ledger
from formulate.domain.roles import Attribution, Caution, Conflict

LIKELY = 0.5
"""A role counts in a sentence from this probability on."""
FILM_ROLES: frozenset[str] = frozenset({"water-repellent", "gloss-and-slip", "film-former", "binder"})
HIDING_CLASSES: frozenset[str] = frozenset({"other", "silicone", "silane", "silica", "mineral", "polymer"})
"""Classes of withheld, unknown or unnamed lines behind which a silica, silane or wax could stand."""
DEFERS = "The safety data sheet, local rules and licensed practice go before anything said here."


def write_brief(
    matches: Sequence[Match],
    identities: Sequence[str],
    attribution: Attribution,
    product: Product,
    ledger: Ledger,
    catalog: Catalog,
) -> Brief:
    """Sentences on headline, carrier, what leaves and stays, beading, what is not known, and the first caution."""
    if not matches:
        return Brief.model_construct(sentences=())
    writer = _Writer(matches, identities, attribution, ledger, catalog)
    headline = writer.headline(product)
    carrier, why_carrier = writer.carrier()
    evaporates, why_evaporates = writer.fated("leaves")
    stays, why_stays = writer.fated("stays", "reacts")
    caution = writer.caution()
    sentences = [
        Sentence.model_construct(text=headline.says, why=headline.why) if headline is not None else None,
        writer.carrier_sentence(carrier, why_carrier),
        writer.fate_sentence(evaporates, why_evaporates, "leaves by evaporation", "leave by evaporation"),
        writer.fate_sentence(
            stays,
            why_stays,
            "stays on the surface, or turns into something that does",
            "stay on the surface, or turn into something that does",
        ),
        writer.depends_sentence(),
        writer.beading(),
        writer.conflict(caution),
        writer.unknown(),
        writer.contradicted(),
        caution,
        writer.second_caution(caution),
    ]
    return Brief.model_construct(
        sentences=tuple(one for one in sentences if one is not None),
        carrier=carrier,
        stays=stays,
        evaporates=evaporates,
        headline=headline,
        caution=caution,
        why_carrier=why_carrier,
        why_stays=why_stays,
        why_evaporates=why_evaporates,
    )


def listed(names: Iterable[str], most: int = 6) -> str:
    """Names in a row, each once, the rest counted."""
    unique = list(dict.fromkeys(names))
    if len(unique) > most:
        return ", ".join(unique[:most]) + f" and {len(unique) - most} more"
    return ", ".join(unique[:-1]) + " and " + unique[-1] if len(unique) > 1 else "".join(unique)


class _Writer:
    """Sentences about one mixture, each adding its reason to the ledger."""

    def __init__(
        self,
        matches: Sequence[Match],
        identities: Sequence[str],
        attribution: Attribution,
        ledger: Ledger,
        catalog: Catalog,
    ) -> None:
        self.matches, self.identities, self.ledger, self.catalog = matches, identities, ledger, catalog
        self.attribution = attribution
        self.lines = attribution.lines
        self.unidentified = [i for i, match in enumerate(matches) if match.how not in IDENTIFIED]

    def _why_role(self, index: int, role: str) -> str:
        """Reason of a role of a line, as main purpose or as a further function."""
        return self.attribution.why_roles[index][[one.role for one in self.lines[index].roles].index(role)]

    def _said(
        self, template: str, values: dict[str, str | float | int | bool | None], because: Iterable[str]
    ) -> Sentence:
        why = self.ledger.add("calculated", template, values, because=because)
        return Sentence.model_construct(text=self.ledger[why].says, why=why)

    def _hangs_on(self, sentence: Sentence | None, why: str) -> bool:
        return sentence is not None and why in self.ledger[sentence.why].because

    def with_role(self, role: str) -> list[int]:
        """Lines that have a role, as main purpose or besides, with at least the likely probability."""
        return [i for i, line in enumerate(self.lines) if line.probability(role) >= LIKELY]

    def carrier(self) -> tuple[tuple[str, ...], str | None]:
        """Lines whose main purpose is carrier."""
        found = [
            i for i, line in enumerate(self.lines) if line.top.role == "carrier" and line.top.probability >= LIKELY
        ]
        if not found:
            return (), None
        why = self.ledger.add(
            "calculated",
            "carrier by main purpose: {names}",
            {"names": self._names(found)},
            because=[self.attribution.why_roles[i][0] for i in found],
        )
        return tuple(dict.fromkeys(self.lines[i].name for i in found)), why

    def _names(self, indices: Iterable[int]) -> str:
        return listed(self.lines[i].name for i in indices)

    def fated(self, *fates: str) -> tuple[tuple[str, ...], str | None]:
        """Lines that leave, or stay, by name, with the reason."""
        found = [i for i, line in enumerate(self.lines) if line.fate in fates]
        whys = [why for i in found if (why := self.attribution.why_fate[i]) is not None]
        if not whys:
            return (), None
        why = self.ledger.add(
            "calculated", "{fate}: {names}", {"fate": " or ".join(fates), "names": self._names(found)}, because=whys
        )
        return tuple(dict.fromkeys(self.lines[i].name for i in found)), why

    def carrier_sentence(self, names: tuple[str, ...], why: str | None) -> Sentence | None:
        """Which liquid carries the rest, or that none is named."""
        if why is None:
            return self._said(
                "No line of the list is clearly the liquid that carries the rest.",
                {},
                [whys[0] for whys in self.attribution.why_roles],
            )
        return self._said(
            "{names} {verb} the rest.",
            {"names": capital(listed(names)), "verb": "carries" if len(names) == 1 else "carry"},
            [why],
        )

    def fate_sentence(self, names: tuple[str, ...], why: str | None, one: str, several: str) -> Sentence | None:
        """What leaves, or what stays; ``one`` and ``several`` are the verb for a single name and for more."""
        if why is None:
            return None
        verb = one if len(names) == 1 else several
        return self._said("{names} {verb}.", {"names": capital(listed(names, 8)), "verb": verb}, [why])

    def depends_sentence(self) -> Sentence | None:
        """What is slow to leave, and apart from it what leaves or stays by a grade that is not told."""
        names, why = self.fated("depends")
        if why is None:
            return None
        slow = [name for name in names if name in self._single_substances()]
        graded = [name for name in names if name not in slow]
        says: list[str] = []
        values: dict[str, str | float | int | bool | None] = {}
        if slow:
            says.append("{slow} {leaves} slowly: how much is left is a matter of days of drying.")
            values |= {"slow": capital(listed(slow)), "leaves": "leaves" if len(slow) == 1 else "leave"}
        if graded:
            says.append("Whether {graded} {verb} cannot be said from the list: it depends on the grade.")
            values |= {"graded": listed(graded), "verb": "leaves or stays" if len(graded) == 1 else "leave or stay"}
        return self._said(" ".join(says), values, [why])

    def _single_substances(self) -> frozenset[str]:
        """Names of the lines that are one substance each: they have no grades."""
        ids = [match.ingredient for match in self.matches]
        kinds = [self.catalog.ingredient(one).kind if one is not None else "" for one in ids]
        return frozenset(line.name for line, kind in zip(self.lines, kinds, strict=True) if kind == "substance")

    def beading(self) -> Sentence:
        """What could make water bead; without one, that nothing identified could."""
        found = self.with_role("water-repellent")
        if found:
            return self._said(
                "{names} could make water bead.",
                {"names": capital(self._names(found))},
                [self._why_role(i, "water-repellent") for i in found],
            )
        if self.unidentified:
            return self._said(
                "No line that could be identified is known to make water bead; {count} of {lines} could not.",
                {"count": len(self.unidentified), "lines": len(self.lines)},
                self.identities,
            )
        return self._said("Nothing in the list is known to make water bead.", {}, self.identities)

    def conflict(self, caution: Sentence | None) -> Sentence | None:
        """The gravest conflict, if it is more than a note and not said as the first caution."""
        for conflict, why in zip(self.attribution.conflicts, self.attribution.why_conflicts, strict=True):
            if not self._hangs_on(caution, why) and conflict.severity in {"grave", "serious", "care"}:
                return self._said("{says}", {"says": conflict.says}, [why])
        return None

    def unknown(self) -> Sentence | None:
        """Which lines are not known, withheld, or only a class."""
        unknown = [i for i in self.unidentified if not self.matches[i].candidates]
        if not unknown:
            return None
        template = (
            "Not told or not known: {names}; a class named without a substance, a withheld name or a name that the "
            "dataset lacks."
        )
        names = listed((f"“{self.lines[i].name}”" for i in unknown), 5)
        return self._said(template, {"names": names}, [self.identities[i] for i in unknown])

    def contradicted(self) -> Sentence | None:
        """Which lines point to more than one ingredient."""
        torn = [i for i in self.unidentified if self.matches[i].candidates]
        if not torn:
            return None
        template = "What is printed for {names} points to more than one ingredient: ask which it is."
        names = listed((f"“{self.lines[i].name}”" for i in torn), 5)
        return self._said(template, {"names": names}, [self.identities[i] for i in torn])

    def second_caution(self, first: Sentence | None) -> Sentence | None:
        """A further caution that is grave or serious, if the first was not the only one."""
        for caution, why in zip(self.attribution.cautions, self.attribution.why_cautions, strict=True):
            if not self._hangs_on(first, why) and caution.severity in {"grave", "serious"}:
                return self._said("{caution}", {"caution": caution.says}, [why])
        return None

    def caution(self) -> Sentence | None:
        """The first caution, or a conflict that is graver than it; the gravest conflict has its own sentence anyway."""
        called: list[tuple[Conflict | Caution, str]] = []
        called += zip(self.attribution.cautions[:1], self.attribution.why_cautions, strict=False)
        called += zip(self.attribution.conflicts[:1], self.attribution.why_conflicts, strict=False)
        if not called:
            return None
        first, why = min(called, key=lambda one: SEVERITIES.index(one[0].severity))
        return self._said("{caution} {defers}", {"caution": first.says, "defers": DEFERS}, [why])

    def headline(self, product: Product) -> HeadlineSaid | None:
        """Whether what the front promises is in the list; absent headlines come first."""
        said = [
            self._headline(record, hint.why)
            for hint in product.headlines
            if (record := self.catalog.headline(hint.value)) is not None
        ]
        return min(said, key=lambda one: (one.in_list is True, one.in_list is None), default=None)

    def _headline(self, record: Headline, why_word: str) -> HeadlineSaid:
        holds = [
            i
            for i, match in enumerate(self.matches)
            if match.ingredient in record.ingredients or record.classes & set(self.catalog.classes[match.class_].line)
        ]
        filed = self.ledger.add(
            "looked-up",
            "Such a word promises {title}. {can} {cannot}",
            {"title": record.title, "can": record.can, "cannot": record.cannot},
            citations=(record.citation,),
        )
        told = [i for i in holds if not self.matches[i].class_guessed and self.matches[i].how != "withheld"]
        if holds and not told:
            said = self._said(
                "The front promises {title}. Whether the list names it cannot be said: by its words {names} may be "
                "one; its name is not known. {cannot}",
                {"title": record.title, "names": self._names(holds), "cannot": record.cannot},
                [why_word, filed, *(self.identities[i] for i in holds)],
            )
            return HeadlineSaid.model_construct(headline=record.headline, in_list=None, says=said.text, why=said.why)
        holds = told
        if holds:
            said = self._said(
                "The front promises {title}; the list names {names}. {can} {cannot}",
                {
                    "title": record.title,
                    "names": self._names(holds),
                    "can": record.can,
                    "cannot": record.cannot,
                },
                [why_word, filed, *(self.identities[i] for i in holds)],
            )
            return HeadlineSaid.model_construct(headline=record.headline, in_list=True, says=said.text, why=said.why)
        return self._absent(record, why_word, filed)

    def _absent(self, record: Headline, why_word: str, filed: str) -> HeadlineSaid:
        film = [
            i
            for i, line in enumerate(self.lines)
            if line.fate != "leaves" and any(line.probability(role) >= LIKELY for role in FILM_ROLES)
        ]
        made_of = (
            f"Of what is named, the film will be made of {self._names(film)}."
            if film
            else "Nothing in the list is known to form a film."
        )
        withheld = [i for i in self.unidentified if self.catalog.classes[self.matches[i].class_].top in HIDING_CLASSES]
        behind = f" It could stand behind {listed(f'“{self.lines[i].name}”' for i in withheld)}." if withheld else ""
        template = (
            "The front promises {title}, and no line of the list names it. It could be there {hidden}.{behind} {film}"
        )
        roles = [whys[0] for whys in self.attribution.why_roles]
        said = self._said(
            template,
            {"title": record.title, "hidden": record.hidden, "behind": behind, "film": made_of},
            [why_word, filed, *self.identities, *(roles[i] for i in film)],
        )
        return HeadlineSaid.model_construct(headline=record.headline, in_list=False, says=said.text, why=said.why)


def capital(text: str) -> str:
    """First letter large, the rest as it is; prefixes of chemistry (n-, d-, tert-) stay small."""
    return text if re.match(r"(?:[a-z]|tert|sec|alpha|beta|gamma|cis|trans)-", text) else text[:1].upper() + text[1:]
