"""How the worker refuses a document; the name of the file is added where it is told."""

from __future__ import annotations

from formulate.errors import InputError

_WHOLE = "reading the part that can be had could miss the list, or half of it."
_SAVE = "save only the pages with the ingredients (section 3 of a data sheet), or copy the list and paste it."
_LOCKED = "open it in its own program and save it without the password, or copy the list and paste it."


def refused(what: str, reference: str, at: str = "", why: str = _WHOLE, try_: str = _SAVE) -> InputError:
    """An error whose place is only told within the document (``at``)."""
    return InputError(what, at, why, try_, reference)


def locked(what: str) -> InputError:
    """A document under a password: ``encrypted-document``."""
    why = "without the password nothing of it can be read."
    return refused(f"{what} is locked with a password.", "encrypted-document", why=why, try_=_LOCKED)
