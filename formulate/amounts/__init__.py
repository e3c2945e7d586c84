"""How much of each can there be? Hard bounds, plausible ranges, totals, and draws that keep correlations."""
