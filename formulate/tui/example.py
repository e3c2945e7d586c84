"""The invented example that Enter on the empty first box shows. No bottle of this kind exists."""

from __future__ import annotations

EXAMPLE = """\
(An invented example: the list of a spray for the glass of a greenhouse roof. No such bottle exists.)
Silica shield for the greenhouse roof, one season. Spray on, wipe off.
Ingredients: Aqua, Alcohol Denat., Amodimethicone, Silica, Montan Wax, Trideceth-6,
Acetic Acid, Vel-Tarn 40, Phenoxyethanol.
Shake well before use.
"""
