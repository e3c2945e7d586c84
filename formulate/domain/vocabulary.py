"""Words that the contract fixes."""

from __future__ import annotations

ROLES: tuple[str, ...] = (
    "carrier",
    "cosolvent",
    "coalescent",
    "propellant",
    "water-repellent",
    "gloss-and-slip",
    "film-former",
    "binder",
    "plasticiser",
    "coupling-agent",
    "crosslinker",
    "catalyst",
    "hard-particle",
    "abrasive",
    "rheology-modifier",
    "anti-slip",
    "emulsifier",
    "wetting-agent",
    "detergent",
    "hydrotrope",
    "dispersant",
    "antifoam",
    "drying-aid",
    "deposition-aid",
    "ph-adjuster",
    "buffer",
    "chelator",
    "builder",
    "preservative",
    "antimicrobial-active",
    "antioxidant",
    "uv-absorber",
    "corrosion-inhibitor",
    "humectant",
    "antistatic-agent",
    "fragrance",
    "colorant",
    "bitterant",
    "opacifier",
    "release-agent",
    "residue",
    "unexplained",
)
"""Main purposes of an ingredient in a mixture."""

TOP_CLASSES: tuple[str, ...] = (
    "water",
    "solvent",
    "silicone",
    "silane",
    "wax",
    "silica",
    "mineral",
    "polymer",
    "surfactant",
    "emulsifier",
    "dispersant",
    "thickener",
    "ph-adjuster",
    "chelator",
    "preservative",
    "humectant",
    "corrosion-inhibitor",
    "uv-absorber",
    "abrasive",
    "oil",
    "propellant",
    "fragrance",
    "colorant",
    "salt",
    "other",
)
"""Classes of an ingredient as answers show them; the dataset refines them in ``classes.csv``."""

FORMS: tuple[str, ...] = ("spray", "aerosol", "trigger", "wipe", "pour", "paste", "dip", "unknown")
MIST_FORMS: frozenset[str] = frozenset({"spray", "aerosol", "trigger"})
RULES: tuple[str, ...] = ("none", "eu-label", "us-cosmetic-label", "eu-detergent", "sds-us", "sds-eu", "sds-ca")
"""Laws of disclosure that a list can be under."""
JURISDICTIONS: tuple[str, ...] = ("eu", "uk", "us", "ca", "au")


def role_label(role: str) -> str:
    """A role as a sentence says it: 'water repellent', 'pH adjuster', 'UV absorber'."""
    return {"ph-adjuster": "pH adjuster", "uv-absorber": "UV absorber"}.get(role, role.replace("-", " "))
