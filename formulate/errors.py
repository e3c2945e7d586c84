"""What the program raises on purpose: four short parts a person can act on."""

from __future__ import annotations


class FormulateError(Exception):
    """An error told in four parts: what, where, why, and what to try.

    The first part is a sentence that stands alone. ``reference`` is a permanent
    kebab-case name of this kind of error.
    """

    reference = "error"

    def __init__(self, what: str, at: str, why: str, try_: str, reference: str | None = None) -> None:
        super().__init__(what)
        self.what = what
        self.at = at
        self.why = why
        self.try_ = try_
        if reference is not None:
            self.reference = reference

    def __str__(self) -> str:
        return "\n".join(
            [
                self.what,
                f"Where: {self.at}",
                f"Why it matters: {self.why}",
                f"What to do: {self.try_}   ({self.reference})",
            ]
        )


class UsageError(FormulateError):
    """The call itself is not one the program knows (exit code 2)."""

    reference = "usage"


class InputError(FormulateError):
    """The input cannot be read at all, or is too large (exit code 3)."""

    reference = "input"


class DataError(FormulateError):
    """A table or rule of the dataset breaks its own rules: names file, row and column."""

    reference = "data"


class CaseError(FormulateError):
    """A case file cannot be opened or written."""

    reference = "case"


class Stopped(Exception):
    """Work was stopped on request; not an error."""
