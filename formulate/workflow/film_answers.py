"""The answer of ``coverage``."""

from __future__ import annotations

from formulate.domain.interval import Range
from formulate.domain.model import Model
from formulate.workflow.answers import Answer


class PartDeposit(Model):
    """What one line leaves: film, silica and the rest of it together."""

    name: str
    kind: str
    mg_per_m2: Range
    nm: Range


class DepositSaid(Model):
    """What is on the surface. Null: nothing is known of it."""

    silica_mg_per_m2: Range
    film_mg_per_m2: Range | None
    film_nm: Range | None
    rest_mg_per_m2: Range | None
    rest_nm: Range | None
    solid_silica_nm: Range
    dry_nm: Range | None
    volume_solids: Range | None
    wet_g_per_m2: Range
    kept: dict[str, Range]
    spreading_rate_m2_per_l: Range
    parts: tuple[PartDeposit, ...]


class FullLayerSaid(Model):
    """Mass of a full layer by three conventions, and the silica in the bottle that each needs (may be above 1)."""

    hexagonal_mg_per_m2: Range
    jammed_mg_per_m2: Range
    overlapping_mg_per_m2: Range
    hexagonal_silica: Range
    jammed_silica: Range
    overlapping_silica: Range
    hexagonal_covers: float
    jammed_covers: float
    overlapping_covers: float
    layers: Range


class Matter(Model):
    """Share of the variance of log(particles per um2) that one input explains alone; ``together``: the remainder."""

    input: str
    share: float


class SizeSaid(Model):
    """The size of the particles: median by number; ``assumed`` where nobody said it."""

    assumed: bool
    says: str
    median_nm: Range
    d32_nm: Range


class ApplicationSaid(Model):
    """How it was taken to be put on."""

    name: str
    title: str
    passes: int
    surface: str
    roughness_nm: Range


class CountingAlone(Model):
    """Factor x/÷ within which silica in the bottle is known before counting, and after endless counting."""

    before: float
    after: float
    says: str


class Explanation(Model):
    """An explanation of a count below what was expected, and its weight."""

    explanation: str
    says: str
    weight: float


class Arm(Model):
    """An experiment that tells the explanations apart, and the factor x/÷ to which it narrows what it fixes."""

    arm: str
    narrows: str
    to_factor: float
    says: str


class OtherPrior(Model):
    """Silica in the bottle if the kept fraction were usually something else."""

    kept_typical: float
    silica: Range | None
    effective: float


class TouchingSaid(Model):
    """Images that touch: the two densities that the clumps can mean; ``countable`` false: the count is refused."""

    width_nm: float
    psi: float
    countable: bool
    few_per_um2: float | None
    many_per_um2: float | None


class ReplicationSaid(Model):
    """Fields on coupons, and the precision x/÷ or upper limit (per um2) that they would give."""

    wanted: str
    coupons: int
    fields_each: int
    reached: float


class ImpliedSaid(Model):
    """What the count implies. Null where it cannot be said."""

    particles_per_um2: Range | None
    silica_mg_per_m2: Range | None
    silica: Range | None
    kept: Range | None
    median_nm: Range | None
    explanations: tuple[Explanation, ...]
    tell_apart: tuple[Arm, ...]
    can_be_said: bool
    says: str
    upper_limit: bool
    fields: int
    coupons: int
    counted: int
    scatter: float
    across: str
    edge_rule: str
    effective: float
    other_priors: tuple[OtherPrior, ...]
    touching: TouchingSaid | None
    replication: tuple[ReplicationSaid, ...]


class CoverageAnswer(Answer):
    """Answer of ``coverage``; all null where nothing is known of the composition."""

    application: ApplicationSaid
    size: SizeSaid | None
    deposit: DepositSaid | None
    particles_per_um2: Range | None
    seen_per_um2: Range | None
    per_field: Range | None
    seen_per_field: Range | None
    covered_fraction: Range | None
    covered_if_overlapping: Range | None
    visible_height_nm: Range | None
    smallest_visible_nm: Range | None
    unseen_mass_share: Range | None
    full_layer: FullLayerSaid | None
    matters: tuple[Matter, ...]
    counting_alone: CountingAlone | None
    implied: ImpliedSaid | None
    covered_means_per_um2: Range | None
    sampling_draws: int
    contradiction: str
    seed: int | None
