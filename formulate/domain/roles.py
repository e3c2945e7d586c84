"""What each ingredient is doing: ranked roles with evidence, and conflicts between ingredients."""

from __future__ import annotations

from typing import Literal

from formulate.domain.model import Model

Severity = Literal["grave", "serious", "care", "note"]


class Evidence(Model):
    """A rule that counted for or against a role; ``rows`` is what its weight was fitted on, None if it is judged."""

    rule: str
    group: str
    says: str
    sources: tuple[str, ...]
    log_odds: float
    rows: int | None = None


class RoleChoice(Model):
    """A main purpose: its probability among all, ``alone`` by itself, and what spoke for and against."""

    role: str
    probability: float
    evidence: tuple[Evidence, ...]
    alone: float = 1.0


class AlsoRole(Model):
    """A further function at the same time, with its own probability."""

    role: str
    probability: float


class LineRoles(Model):
    """Roles of one line. ``roles`` sum to 1; ``fate`` is leaves, stays, depends, reacts or None (not known)."""

    position: int
    name: str
    fate: str | None
    roles: tuple[RoleChoice, ...]
    also: tuple[AlsoRole, ...]
    corrected: bool = False

    @property
    def top(self) -> RoleChoice:
        """The most probable main purpose."""
        return self.roles[0]

    def probability(self, role: str) -> float:
        """The larger of a role's probability as main purpose and by itself."""
        return max((max(one.probability, one.alone) for one in self.roles if one.role == role), default=0.0)


class Conflict(Model):
    """Ingredients that do not go together, by position."""

    id: str
    between: tuple[int, ...]
    says: str
    severity: Severity
    sources: tuple[str, ...]


class Caution(Model):
    """What can hurt, and how one works because of it; ``lines`` are the positions it comes from.

    ``certainty`` is possibly if it rests only on what a line that stays open may be.
    """

    id: str
    lines: tuple[int, ...]
    says: str
    severity: Severity
    sources: tuple[str, ...]
    certainty: Literal["at least", "possibly"] = "at least"


class Attribution(Model):
    """Roles of every line, conflicts and cautions (gravest first). ``why_*`` give the reason of each."""

    lines: tuple[LineRoles, ...]
    conflicts: tuple[Conflict, ...]
    cautions: tuple[Caution, ...]
    why_roles: tuple[tuple[str, ...], ...]
    why_also: tuple[tuple[str, ...], ...]
    why_fate: tuple[str | None, ...]
    why_conflicts: tuple[str, ...]
    why_cautions: tuple[str, ...]
