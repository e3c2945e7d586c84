"""Where a comma belongs to a name: index names turned round ('Distillates, petroleum, light') and digits."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from formulate.reading.lazily import lazy

LONGEST = 7

HEAD = lazy(
    r"^\W{0,3}(?:distillates?|naphtha|hydrocarbons?|kohlenwasserstoffe|hydrocarbures|idrocarburi|w\u0119glowodory"
    r"|alkanes?|alkenes?|alcohols?|alkohole|fatty\sacids?|solvent\snaphtha|siloxanes?|silicones?"
    r"|siloxanes\sand\ssilicones"
    r"|benzene|silane|silica|silicon|quaternary\sammonium(?:\scompounds)?|quaternary\sammonium\scompounds|amines?"
    r"|amides|paraffin(?:\swax(?:es)?|s)?|waxes|lubricating\soils?|residual\soils?|white\smineral\soil|mineral\soil"
    r"|residues?|extracts?"
    r"|gases|petroleum(?:\sdistillates?|\sgases)?|glycerides|oils?|castor\soil|tallow|coconut\soil|sulfonic\sacids?"
    r"|benzenesulfonic\sacid|phosphoric\sacid|sulfuric\sacid|acetic\sacid|fatty\salcohols?|butane|propane|propanol"
    r"|ethanol"
    r"|\d?-?(?:hexanol|propanol|ethanol|butanol|hexanediol|pentanol)|oxirane|ethene|propene|poly\(?.{1,40}|polymer"
    r"|copolymer|starch|cellulose|clay|kaolin|alumina|aluminum\soxide|talc|titanium|zinc|cobalt"
    r"|montan\swax(?:\sacids)?|rosin|turpentine|shellac"
    r"|aromatic\s(?:hydrocarbons?|solvent)|stoddard\ssolvent|isoparaffins?|1,3-.{2,30}|2-propenoic\sacid"
    r"|propenoic\sacid|hexanoic\sacid|glycine|urea|carbamic\sacid|ethanaminium|.{0,20}aluminium|dimethyl\ssiloxane"
    r"|dimethylsiloxane)\b(?:\s?\([^()]{0,40}\))?$",
    re.IGNORECASE,
)
TAIL = lazy(
    r"^\W{0,2}(?:\(?petroleum\)?|hydro(?:treated|desulfuri[sz]ed|cracked)\b.{0,40}|hydrogenated"
    r"|solvent[\s-](?:refined|dewaxed)\b.{0,40}|(?:very\s)?(?:light|heavy|medium)(?:\s(?:aromatic|aliphatic"
    r"|paraffinic|naphthenic|alkylate|arom\.?|aliph\.?|straight.run|distillate|catalytic))?"
    r"|acid[\s-]treated(?:\s\w{1,12})?|sweetened|straight[\s-]run|full[\s-]range|light|heavy"
    r"|C\d{1,2}\s?-?\s?C?\d{0,2}\S{0,14}(?:\s(?:rich|linear|branched|n-?alkanes|iso\S{0,12}|alkyl|alkanes)){0,3}"
    r"|n-?\s?(?:alkanes?|alkane|alkany|paraffins?)|iso-?(?:alkanes?|alkane|alkany|paraffins?)|cycl(?:ics?|ene"
    r"|o-?alkanes?|oalkany|ic)|aromatics?|(?:<|\u2264|less\sthan)\s?\d{1,2}(?:[.,]\d{1,2})?\s?%\s?(?:aromat|n-?hex"
    r"|benz).{0,14}"
    r"|amorphous|crystalline(?:[\s-]free)?|fumed|precipitated|hydrated|synthetic|pyrogenic|colloidal|calcined|fused"
    r"|chemically\sprepared|modified"
    r"|reaction\sproducts?\s(?:with|of)\b.{0,80}|polymers?\swith\b.{0,80}|compd?s?\.?\s(?:with|w/)\b.{0,60}"
    r"|hydrolysis\sproducts?.{0,60}|ethoxylated|propoxylated|alkoxylated|sulfated|sulfonated|sulfonates"
    r"|epoxidi[sz]ed|ethoxylate|hydrolyzed"
    r"|(?:mono|di|tri|tetra)?(?:sodium|potassium|ammonium|calcium|magnesium|zinc|lithium|titanium.{0,6}|amine"
    r"|triethanolamine|cobalt)\ssalts?(?:\s\(.{1,12}\))?|esters?\b.{0,30}|(?:ethylene|methyl|ethyl|butyl"
    r"|sorbitan)\s(?:esters?|ethers?)|ethers?\b.{0,20}"
    r"|(?:di-?|tri-?)?(?:me|et|ph|vinyl|bu)(?:\s?,|\b)(?:\s(?:hydrogen|me|ph).{0,20})?|hydrogen-?terminated"
    r"|(?:hydroxy|vinyl|trimethylsilyl|methoxy|amino|silanol|hydroxyl)[\w-]{0,30}-?term(?:inated|\.)?\b.{0,30}"
    r"|branched(?:\sand\slinear)?|linear(?:\sand\sbranched)?|homopolymers?|copolymers?|oligomeric|oligomers"
    r"|[a-z]{0,14}ethoxylated|refined|bleached|natural|normal|blown|raw|technical(?:\sgrade)?"
    r"|aqueous(?:\ssolution)?|anhydrous|denatured|branched.{0,20}"
    r"|polymerisiert|hydriert|butadien-frei|.{0,30}-frei|produkt\sreakcji.{0,60}|.{1,40}fraktion|low\squartz"
    r"|.{0,40}(?:-|\(\d?[+]\)\ssalt)|by-?products?.{0,20}|tallow\salkyl.{0,40}|coco(?:\salkyl)?.{0,30}"
    r"|alkyl\sderivs?\.?.{0,30}|\S{1,14}alkyl\sderiv\S{0,4})\W{0,2}$",
    re.IGNORECASE,
)
_ALWAYS = lazy(
    r"^\W{0,2}(?:\(?petroleum\)?|hydro(?:treated|desulfuri[sz]ed)\b.{0,40}|C\d{1,2}\s?-\s?C?\d{1,2}\S{0,14}"
    r"|n-?\s?(?:alkan\w{1,3}|paraffins?)|iso-?(?:alkan\w{1,3}|paraffins?)|cyclics?|cyclene|cycloalkanes?|aromatics?"
    r"|amorphous|fumed|(?:<|\u2264).{1,24}|(?:solvent[\s-]refined|heavy|light|medium)\b.{0,24})\W{0,2}$",
    re.IGNORECASE,
)
_PETROLEUM = lazy(
    r"\W{0,3}(?:distillates?|naphtha|hydrocarbons?|kohlenwasserstoffe|hydrocarbures|idrocarburi|w\u0119glowodory|alkanes?"
    r"|alkenes?|solvent\snaphtha|lubricating|residu|extracts?|gases|petroleum|white\smineral|mineral\soil|paraffin|oils?\b"
    r"|aromatic|isoparaffin|stoddard|waxes|alcohols?|alkohole|fatty|amines?|amides|glycerides|quaternary|benzenesulfonic)",
    re.IGNORECASE,
)
_REMARK = lazy(r"\s\([^()]{1,40}\)$")
_OF_PETROLEUM = lazy(
    r"\W{0,2}(?:\(?petroleum|hydro|solvent[\s-]|(?:very\s)?(?:light|heavy|medium)|acid[\s-]|C\d|n-|iso|cycl|aromatic|[<\u2264])",
    re.IGNORECASE,
)
_CONTENT = lazy(
    r"(?:<|\u2264|less\sthan)\s?\d{1,2}(?:[.,]\d{1,2})?\s?%\s?(?:aromat|n-?\s?hex|benz)"
    r"|\d{1,3}(?:[.,]\d{1,2})?\s?%\s?(?:solids|active|solution|in\swater|aqueous)",
    re.IGNORECASE,
)
_VISCOSITY = lazy(r"\d{1,7}(?:[.,]\d{1,3})?\s?(?:cst|cs|mm2/s|mm\u00b2/s|centistokes?|cps?|mpa\.?s)\.?", re.IGNORECASE)
_SUBSTITUENT_END = lazy(r"[A-Za-z)\]\d]-$")


def is_inside_number(copy: str, at: int) -> bool:
    """Whether the comma at ``at`` stands inside digits, locants or 'N,N-' and is no separator."""
    before, after = copy[at - 1 : at], copy[at + 1 : at + 2]
    if before.isdigit() and after.isdigit():
        return True
    if after.isspace() or not after:
        return False
    if not (before.isalnum() or before == "'") or not after.isalnum():
        return False
    start = at - 1
    if before == "'":
        start -= 1
    alone = not (start > 0 and copy[start - 1 : start].isalnum()) or copy[max(0, at - 5) : at].lower() == "alpha"
    one_sign = copy[at + 2 : at + 3] in "-,'" or copy[at + 1 : at + 6].lower() == "omega"
    return alone and one_sign


def joined(fragments: Sequence[str], known: Callable[[str], bool]) -> list[int]:
    """How many fragments each name takes, in order: the word list first, then the form of index names.

    ``fragments`` are the pieces between commas, without amounts. A join the word list
    knows wins; else pieces that can only continue an inverted name are joined to its head.
    """
    sizes: list[int] = []
    at = 0
    while at < len(fragments):
        size = _known_join(fragments, at, known) or _formed_join(fragments, at, known)
        while at + size < len(fragments) and _CONTENT.match(fragments[at + size].strip()[:60]):
            size += 1
        sizes.append(size)
        at += size
    return sizes


def _known_join(fragments: Sequence[str], at: int, known: Callable[[str], bool]) -> int:
    for size in range(min(LONGEST, len(fragments) - at), 1, -1):
        parts = fragments[at : at + size]
        if sum(map(len, parts)) > 200:
            continue
        whole = ", ".join(part.strip() for part in parts)
        bare = _REMARK.sub("", whole)  # '..., hydroxy-terminated (gloss)'
        if known(whole) or (bare != whole and known(bare)):
            return size
    return 0


def _formed_join(fragments: Sequence[str], at: int, known: Callable[[str], bool]) -> int:
    size = 1
    head = HEAD.match(fragments[at].strip()[:80]) is not None
    while at + size < len(fragments) and size < LONGEST:
        piece = fragments[at + size].strip()
        if len(piece) > 120 or not piece:
            break
        if _VISCOSITY.fullmatch(piece) and size == 1:
            return size + 1  # 'Dimethicone, 350 cSt' is one name
        if _SUBSTITUENT_END.search(piece) and not known(piece):
            size += 1
            continue
        if size == 1 and _OF_PETROLEUM.match(piece) and not _PETROLEUM.match(fragments[at].strip()[:80]):
            break
        names_itself = known(piece) and (not _ALWAYS.match(piece) or known(fragments[at].strip()))
        if not (head or size > 1) or not TAIL.match(piece) or names_itself:
            break
        size += 1
    return size
