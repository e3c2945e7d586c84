"""Layout of the compiled file, shared by what writes it and what reads it."""

from __future__ import annotations

COMPILED_SCHEMA = 18
"""Version of the layout; a file of another layout is compiled anew."""
FACTS: tuple[str, ...] = (
    "silicon",
    "alkoxy_on_si",
    "methoxy_on_si",
    "amine",
    "carboxylic_acid",
    "fluorinated_carbons",
    "alkyl_on_si",
    "chain_carbons",
    "molar_mass",
)
"""Structure facts that are columns of an ingredient."""
