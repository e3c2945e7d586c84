"""Bands of the detergents regulation: half open, and printed once before the class words that share them.

Regulation (EC) No 648/2004, Annex VII A: "less than 5 %, 5 % or over but less than 15 %, 15 % or over but less than
30 %, 30 % and more" for the constituents of its first list; perfumes, enzymes and preservatives of its second list
have no band. The words in other languages are from memory of that annex.
"""

from __future__ import annotations

from formulate.domain.line import Stated
from formulate.reading.item import Draft
from formulate.reading.lazily import lazy

_BANDED = lazy(
    r"(?:(?:an|non|kat|cat|ampho)\w{0,3}[\s-]?(?:ion|lyt|ter)\w{0,6}\s(?:surfactants?|tensides?|tensiden?|oppervlakte\w{0,20})"
    r"|amphoteric\ssurfactants?|(?:an|kat|nicht|ampho)\w{0,4}(?:ion|lyt|ter)\w{0,6}\stenside?"
    r"|(?:agents\sde\ssurface|tensio-?actifs?|tensioattivi|tensioactivos|tensoactivos|agentes\stensioativos)\s"
    r"(?:(?:non|no|n\u00e3o)[\s-])?(?:anionique|cationique|ionique|amphot\u00e8re|anionici|cationici|ionici|anfoteri|ani\u00f3nicos"
    r"|cati\u00f3nicos|i\u00f3nicos|anf\u00f3teros)s?"
    r"|[\u0430\u043d\u043a]-\u043f\u0430\u0432|(?:\u0430|\u043a\u0430\u0442|\u043d\u0435|\u0430\u043c\u0444)\w{0,12}\s(?:\u043f\u0430\u0432|\u0442\u0435\u043d\u0437\u0438\u0434\u044b)"
    r"|soaps?|seife|savon|sapone|jab\u00f3n|\u043c\u044b\u043b\u043e|phosphon?ates?|phosphon?ate?|fosfonati|fosfonatos|fosfati|fosfatos"
    r"|\u0444\u043e\u0441\u0444(?:\u043e\u043d)?\u0430\u0442\u044b|polycarboxylates?|policarbossilati|policarboxilatos"
    r"|\u043f\u043e\u043b\u0438\u043a\u0430\u0440\u0431\u043e\u043a\u0441\u0438\u043b\u0430\u0442\u044b|zeolites?|zeolithe?|zeoliti|\u0446\u0435\u043e\u043b\u0438\u0442\u044b"
    r"|(?:oxygen|chlorine)[\s-]?based\sbleach(?:ing)?(?:\sagents?)?|bleichmittel\sauf\s(?:sauerstoff|chlor)basis"
    r"|agents\sde\sblanchiment\s\w{1,12}|edta(?:\sand\ssalts(?:\sthereof)?)?|nta(?:\s.{0,40})?|phenols?(?:\sand\shalogenated\sphenols)?"
    r"|para-?dichlorobenzene|(?:aromatic|aliphatic|halogenated|aliphatische|aromatische)\s(?:hydrocarbons?|kohlenwasserstoffe))",
    2,
)
_UNBANDED = lazy(
    r"(?:perfumes?|fragrances?|parfums?|duftstoffe?|profumi?|profumo|perfumes|\u043e\u0442\u0434\u0443\u0448\u043a\u0430|enzym\w{0,4}|\u044d\u043d\u0437\u0438\u043c\u044b"
    r"|optical\sbrighteners?|optische\saufheller|azurants\soptiques|disinfectants?|desinfektionsmittel"
    r"|preserv\w{0,8}(?:\sagents?)?|konservierungs\w{0,8}|conservateurs?|conservanti|conservantes)",
    2,
)
_BANDS = {(0.05, 0.15), (0.15, 0.3)}
_CLOSED = lazy(r"\u2264|<=|=<|up\sto|bis\szu|max", 2)


def with_bands(copy: str, drafts: list[Draft]) -> list[Draft]:
    """The entries with the bands of the law half open, and each band given to the class words after it that have none.

    Only where the band stands in front of its class word: behind it, nothing says whose it is.
    """
    if all(draft.stated is None for draft in drafts) or not any(_is_banded(draft) for draft in drafts):
        return drafts
    told: list[Draft] = []
    band: Stated | None = None
    shared: str | None = None
    for draft in drafts:
        if not _is_banded(draft):
            band = None
            told_once = draft.stated is not None and draft.stated.text == shared and draft.stated.low is not None
            if told_once and _UNBANDED.fullmatch(draft.name):
                draft = draft._replace(stated=None)  # the law gives perfumes and enzymes no band
            elif draft.stated is not None:
                shared = None
        elif draft.stated is not None:
            stated = _half_open(draft.stated)
            shared = stated.text
            draft = draft._replace(stated=stated)
            begins = copy.startswith(shared, draft.spans[0][0])
            band = stated if begins and (stated.low, stated.high) != (None, None) else None
        elif band is not None:
            draft = draft._replace(stated=band)
        told.append(draft)
    return told


def _is_banded(draft: Draft) -> bool:
    return len(draft.name) <= 80 and draft.cas is None and _BANDED.fullmatch(draft.name.strip(" .*")) is not None


def _half_open(stated: Stated) -> Stated:
    if (stated.low, stated.high) in _BANDS and not _CLOSED.search(stated.text):
        return stated.model_copy(update={"high_open": True})
    return stated
