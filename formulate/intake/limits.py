"""Sizes beyond which an input is refused with a reason instead of read slowly or in part."""

DOCUMENT_BYTES = 50 * 1024 * 1024
"""Largest document that is opened at all."""

LIST_CHARACTERS = 2 * 1024 * 1024
"""Largest stretch that is read as one list."""

LIST_LINES = 20_000
"""Most printed lines that are read as one list."""

CONTROL_SHARE = 0.05
"""Share of control characters from which a file counts as binary."""
