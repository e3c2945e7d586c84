"""The words of the screen for the words of the contract. No chemistry: only how a thing is said."""

from __future__ import annotations

from formulate.domain.interval import certainty_word
from formulate.domain.line import Stated
from formulate.workflow.answers import IngredientRoles, ReadLine
from formulate.workflow.gate import shown

ROLE_WORDS: dict[str, str] = {
    "water-repellent": "repels water",
    "ph-adjuster": "sets pH",
    "rheology-modifier": "sets flow",
    "uv-absorber": "absorbs UV",
    "corrosion-inhibitor": "slows corrosion",
    "antimicrobial-active": "antimicrobial",
    "antistatic-agent": "antistatic",
}
CLASS_WORDS: dict[str, str] = {"ph-adjuster": "pH adjuster", "uv-absorber": "UV absorber", "other": "-"}
HELPERS: frozenset[str] = frozenset(
    {
        "emulsifier",
        "ph-adjuster",
        "buffer",
        "chelator",
        "preservative",
        "dispersant",
        "rheology-modifier",
        "hydrotrope",
        "antifoam",
        "antioxidant",
    }
)
"""Main purposes that hold the product together rather than work on the surface."""
MEANS_WORDS: dict[str, str] = {"active": "the ingredient itself", "as-supplied": "the raw material as sold"}
GROUPS: tuple[str, ...] = ("leaves", "stays", "reacts, then stays", "by its grade", "holds it together", "not known")
FATE_WORDS: dict[str, str] = {"leaves": "leaves", "stays": "stays", "reacts": "reacts", "depends": "by its grade"}
_GROUP_OF_FATE = {"leaves": "leaves", "stays": "stays", "reacts": "reacts, then stays", "depends": "by its grade"}
FIELD_HELP: dict[str, str] = {
    "fate": "Whether the ingredient leaves the surface after use, stays on it, reacts to something that stays, or does "
    "one or the other by a grade that the list does not tell.",
    "raw": "The line as it is printed on the bottle; below it stands the place in the text that you pasted.",
    "identity": "What the line is: the entry of the dataset that answers to the printed name or number.",
    "class": "The kind of material. A question mark says that it is guessed from the words of the name.",
    "purpose": "The main purpose of the ingredient in this mixture: in another list the same substance can do "
    "something else.",
    "certainty": "How sure the main purpose is: sure from 0.9, likely from 0.6, open below, - where nothing known "
    "explains the line. The figure stands in the ground band. Few weights of the rules are fitted, most are judged.",
    "also": "What the ingredient does besides its main purpose, each with a probability of its own.",
    "amount": "The amount as it is printed beside the name.",
    "claim": "What the front of the bottle claims. It decides which headline is looked for in the list.",
    "headline": "Whether the list holds what the front promises.",
    "form": "How the product is put on. A spray or aerosol makes a mist, which changes the first caution.",
    "sentence": "One sentence on the whole mixture; it hangs on the reasons below it and goes when they go.",
    "conflict": "Ingredients that do not go together.",
    "caution": "What can hurt, and how one works because of it. It never says that something is safe.",
    "left": "Text of the paste that was not used as an ingredient, and why.",
    "fact": "A measurement printed beside the list.",
    "code": "A hazard code that the data sheet prints for the product as a whole.",
    "note": "A remark on the answer as a whole.",
    "rule": "The law of disclosure that the list is taken to be under. Without one the order of a list says nothing "
    "certain. c changes it.",
    "line": "After which line the amounts are at most 1 %: below it the law leaves the order free. Open unless said.",
    "measured": "What was measured of the product; c adds or changes a value, with its uncertainty: "
    "nonvolatile=2.3+-0.2 %.",
    "suppose": "What if: an amount supposed, to see what it forces on the others. It is no statement of the product.",
    "supposed": "Whether what is supposed is possible, and how many of the likely compositions have less and more.",
    "low": "The least there can be, in per cent of the mass in the bottle. Enter says which statement sets it.",
    "high": "The most there can be, in per cent of the mass in the bottle. Enter says which statement sets it.",
    "likely": "Where nine in ten of the compositions drawn lie, by use levels cut to what is certain. In the bar "
    "the line is what is certain, the block what is likely, the mark its middle; the scale is logarithmic. ~ stands "
    "where that is being worked out.",
    "place": "The number of the line in the list; c says that the one-percent line falls behind it.",
    "name": "What the line is; c corrects it.",
    "total": "A sum over the list that a person cares about; c gives it a measured value where one can be measured.",
    "told": "What was measured of this total; c changes it.",
    "absent": "Totals to which nothing in the list counts.",
    "printed": "The amount as it is printed beside the name; c corrects it.",
    "supplied": "How much of the amount is the ingredient itself: many come as a solution or dispersion. c says "
    "what the amount means.",
    "clash": "Statements that cannot all be true of one bottle. Enter shows where each comes from, c corrects it.",
    "step": "A step of the argument. Enter climbs further down, Backspace up.",
}


def role_word(role: str) -> str:
    """A role as the screen says it."""
    return ROLE_WORDS.get(role, role.replace("-", " "))


def class_word(row: IngredientRoles) -> str:
    """The class of a line; a question mark where it is guessed from words."""
    word = CLASS_WORDS.get(row.class_, row.class_.replace("-", " "))
    return f"{word} ?" if row.class_guessed and word != "-" else word


def identity_word(row: IngredientRoles, line: ReadLine | None) -> str:
    """What a line is, or why that is not known."""
    if row.ingredient is not None:
        return row.name
    if line is not None and line.candidates:
        return f"open between {len(line.candidates)}"
    word = CLASS_WORDS.get(row.class_, row.class_.replace("-", " "))
    if row.how == "class-only":
        return f"{word}, kind open"
    if row.how == "withheld":
        return "withheld"
    return "no such name"


def sure_word(row: IngredientRoles) -> str:
    """How sure the main purpose is, in a word."""
    top = row.roles[0]
    return "-" if top.role == "unexplained" else certainty_word(top.probability)


def group_of(row: IngredientRoles) -> str:
    """The group of the sheet that a line stands in."""
    top = row.roles[0]
    if row.fate == "leaves":
        return "leaves"
    if top.role in HELPERS:
        return "holds it together"
    return _GROUP_OF_FATE.get(row.fate or "", "not known")


def amount_word(stated: Stated) -> str:
    """A printed amount, in per cent by mass where it could be read."""
    return (stated.in_per_cent("-") or shown(stated.text)[:24]) + (" ?" if stated.doubtful else "")


def first_sentence(text: str) -> str:
    """The first sentence of a text."""
    head, stop, _ = text.partition(". ")
    return head + "." if stop else text
