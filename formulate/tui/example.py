"""The invented example that Enter on the empty first box shows. No bottle of this kind exists."""

from __future__ import annotations

EXAMPLE = """\
Silica shield for the greenhouse roof, one season. Spray on, wipe off.
Ingredients: Aqua, Alcohol Denat., Amodimethicone, Silica, Montan Wax, Trideceth-6,
Acetic Acid, Vel-Tarn 40, Phenoxyethanol.
Shake well before use.

(This list is an invented example; no such bottle exists.)
"""
