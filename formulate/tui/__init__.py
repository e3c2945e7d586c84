"""How do I ask? The workbench: a sheet of figures, each a place to stand, each climbing down to its source."""
