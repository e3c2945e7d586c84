"""Random sequential adsorption of discs, in order of arrival, to true saturation.

Discs arrive at random places and stay if they overlap none that came before. Throwing at the whole surface becomes
hopeless long before it is full. Here only places that may still be free are thrown at: a list of small boxes, from
which a box is struck as soon as one disc covers it whole, and which are halved when throwing yields little (voxel
elimination; Zhang and Torquato 2013, Phys. Rev. E 88, 053312). When the list is empty, nothing more fits.

Throws are judged in batches, with the outcome of one by one: a throw stays if it overlaps no earlier disc and no
earlier throw that stays. Boxes that are struck held no free place, so the order of arrival is that of the plain
process.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from formulate.film.refusals import SurfaceError, positive

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.int64]
Mask = npt.NDArray[np.bool_]

MOST_DISCS = 200_000
"""Discs that one field may come to hold: some seconds, and some hundred megabytes."""

WIDEST = 3.0
"""Ratio of the largest to the smallest disc up to which the neighbourhoods stay small."""

FIRST_THROWS_PER_CELL = 0.4
THROWS_PER_BOX = 0.9
"""Throws at each box before boxes are struck and halved; chosen for speed, the result follows the same law anyhow."""


AT_ONCE = 4
"""Neighbouring cells looked at in one step; chosen for speed."""


class Arrivals(NamedTuple):
    """Discs in order of arrival: centres ``x``, ``y`` and index of size ``kind``, each shape (n,)."""

    x: Array
    y: Array
    kind: Whole


class _Ground:
    """The cells of the surface: each so small that it holds one centre at most, with copies of the far side around."""

    def __init__(self, width: float, height: float, diameters: Array) -> None:
        side = float(diameters.min()) / np.sqrt(2.0)
        self.width, self.height, self.radii = width, height, diameters / 2
        self.columns, self.rows = int(np.ceil(width / side)), int(np.ceil(height / side))
        self.across, self.up = width / self.columns, height / self.rows
        widest = float(diameters.max())
        self.margin = int(np.ceil(widest / min(self.across, self.up)))
        if min(self.columns, self.rows) < 2 * self.margin + 1:
            raise SurfaceError.field_too_small(min(width, height), widest)
        self.stride = self.columns + 2 * self.margin
        shape = (self.rows + 2 * self.margin, self.stride)
        self.x, self.y = np.full(shape, np.inf), np.full(shape, np.inf)
        self.radius = np.zeros(shape)
        self.near = self._neighbourhood(widest)

    def _neighbourhood(self, widest: float) -> Whole:
        """Steps to the cells that can hold a disc reaching into a cell, nearest first."""
        reach = np.arange(-self.margin, self.margin + 1)
        up, across = np.meshgrid(reach, reach, indexing="ij")
        gap_up = np.maximum(np.abs(up) - 1, 0) * self.up
        gap_across = np.maximum(np.abs(across) - 1, 0) * self.across
        inside = np.hypot(gap_up, gap_across) < widest
        up, across = up[inside], across[inside]
        order = np.argsort(np.hypot(up, across), kind="stable")
        return np.asarray(up[order] * self.stride + across[order], dtype=np.int64)

    def cell(self, x: Array, y: Array) -> Whole:
        """Flat index of the cell of each place."""
        column = np.minimum((x / self.across).astype(np.int64), self.columns - 1)
        row = np.minimum((y / self.up).astype(np.int64), self.rows - 1)
        return (row + self.margin) * self.stride + column + self.margin

    def all_cells(self) -> Whole:
        """Flat index of every cell of the surface itself."""
        rows, columns = np.arange(self.rows) + self.margin, np.arange(self.columns) + self.margin
        return np.asarray((rows[:, None] * self.stride + columns).ravel(), dtype=np.int64)

    def corner(self, cell: Whole) -> tuple[Array, Array]:
        """Lower corner of each cell."""
        row, column = np.divmod(cell, self.stride)
        return (column - self.margin) * self.across, (row - self.margin) * self.up

    def settle(self, x: Array, y: Array, kind: Whole) -> None:
        """Put discs down, and their copies beyond the edges."""
        cell = self.cell(x, y)
        for table, values in ((self.x, x), (self.y, y), (self.radius, self.radii[kind])):
            table.ravel()[cell] = values
        edge, columns, rows = self.margin, self.columns, self.rows
        for table, right, top in ((self.x, self.width, 0.0), (self.y, 0.0, self.height), (self.radius, 0.0, 0.0)):
            table[:, :edge] = table[:, columns : columns + edge] - right
            table[:, columns + edge :] = table[:, edge : 2 * edge] + right
            table[:edge] = table[rows : rows + edge] - top
            table[rows + edge :] = table[edge : 2 * edge] + top

    def covered(self, cell: Whole, x: Array, y: Array, radius: Array, half: tuple[float, float]) -> Mask:
        """Whether one disc covers the whole box of centre (x, y) and half sides ``half``: no centre fits in there."""
        out = np.zeros(len(cell), dtype=bool)
        left = np.arange(len(cell))
        flat_x, flat_y, flat_radius = self.x.ravel(), self.y.ravel(), self.radius.ravel()
        equal = float(2 * self.radii[0]) if len(self.radii) == 1 else None
        for steps in np.array_split(self.near, max(1, len(self.near) // AT_ONCE)):
            at = steps[:, None] + cell[left]
            aside = np.abs(flat_x[at] - x[left])
            above = np.abs(flat_y[at] - y[left])
            if half[0]:
                aside += half[0]
                above += half[1]
            reach = equal if equal is not None else flat_radius[at] + radius[left]
            hit = (aside * aside + above * above < reach * reach).any(axis=0)
            out[left[hit]] = True
            left = left[~hit]
            if not len(left):
                break
        return out


def jam(width: float, height: float, diameters: Array, seed: int) -> Arrivals:
    """Fill a periodic rectangle with discs until none of any of the given sizes fits.

    :param width: width of the rectangle. [any length]
    :param height: its height. [the same length]
    :param diameters: sizes that arrive equally often, shape (k,), the largest at most three times the smallest.
        A distribution is given as the middles of k equal shares. [the same length]
    :param seed: whole number from which all chance is drawn.
    :returns: the discs in order of arrival; the first n of them are a fair sample of the process at lower cover.
    :raises SurfaceError: a size or side is not positive, the sizes differ too much, the rectangle is too small for
        them (about five diameters) or would hold more than :data:`MOST_DISCS`.
    """
    sizes = np.atleast_1d(np.asarray(diameters, dtype=float))
    _check(width, height, sizes)
    ground = _Ground(width, height, sizes)
    chance = np.random.default_rng(seed)
    boxes = _every_cell(ground, len(sizes))
    came: list[Arrivals] = []
    for _ in sizes:  # on bare ground throws are in each other's way: fewer at once, and as if for one size
        _throw(ground, chance, boxes, came, FIRST_THROWS_PER_CELL)
        boxes = _still_free(ground, boxes)
    while len(boxes.cell):
        _throw(ground, chance, boxes, came, THROWS_PER_BOX)
        boxes = _still_free(ground, _halved(_still_free(ground, boxes)))
    return Arrivals(*(np.concatenate(parts) for parts in zip(*came, strict=True)))


class _Boxes(NamedTuple):
    """Places that may be free for a size: cell, lower corner, index of the size, each shape (n,); sides of all."""

    cell: Whole
    left: Array
    low: Array
    kind: Whole
    side: tuple[float, float]


def _every_cell(ground: _Ground, kinds: int) -> _Boxes:
    """The empty surface, once for each size."""
    cells = ground.all_cells()
    left, low = ground.corner(cells)
    kind = np.repeat(np.arange(kinds), len(cells))
    return _Boxes(np.tile(cells, kinds), np.tile(left, kinds), np.tile(low, kinds), kind, (ground.across, ground.up))


def _throw(
    ground: _Ground, chance: np.random.Generator, boxes: _Boxes, came: list[Arrivals], throws_each: float
) -> None:
    """Throw at the boxes, and put down what stays."""
    count = len(boxes.cell)
    if not count:
        return
    throws = throws_each * min(count, ground.columns * ground.rows)
    chosen = chance.integers(0, count, max(16, int(throws)))
    x = boxes.left[chosen] + chance.random(len(chosen)) * boxes.side[0]
    y = boxes.low[chosen] + chance.random(len(chosen)) * boxes.side[1]
    kind, cell = boxes.kind[chosen], boxes.cell[chosen]
    if came:
        free = ~ground.covered(cell, x, y, ground.radii[kind], (0.0, 0.0))
        x, y, kind = x[free], y[free], kind[free]
    stays = _first_come(ground, x, y, kind)
    x, y, kind = x[stays], y[stays], kind[stays]
    if len(x):
        ground.settle(x, y, kind)
        came.append(Arrivals(x, y, kind))


def _still_free(ground: _Ground, boxes: _Boxes) -> _Boxes:
    """Without the boxes in which no centre of their size fits any more."""
    half = (boxes.side[0] / 2, boxes.side[1] / 2)
    radius = ground.radii[boxes.kind]
    keep = ~ground.covered(boxes.cell, boxes.left + half[0], boxes.low + half[1], radius, half)
    return _Boxes(boxes.cell[keep], boxes.left[keep], boxes.low[keep], boxes.kind[keep], boxes.side)


def _halved(boxes: _Boxes) -> _Boxes:
    """Each box in four."""
    across, up = boxes.side[0] / 2, boxes.side[1] / 2
    left = np.concatenate([boxes.left, boxes.left + across, boxes.left, boxes.left + across])
    low = np.concatenate([boxes.low, boxes.low, boxes.low + up, boxes.low + up])
    return _Boxes(np.tile(boxes.cell, 4), left, low, np.tile(boxes.kind, 4), (across, up))


def _first_come(ground: _Ground, x: Array, y: Array, kind: Whole) -> Mask:
    """Which of some throws stay, had they come one by one: those that overlap no earlier one that stays."""
    from scipy.spatial import cKDTree

    stays = np.zeros(len(x), dtype=bool)
    if not len(x):
        return stays
    tree = cKDTree(np.column_stack([x % ground.width, y % ground.height]), boxsize=(ground.width, ground.height))
    pairs = tree.query_pairs(2 * float(ground.radii.max()), output_type="ndarray")
    early, late = pairs.min(axis=1), pairs.max(axis=1)
    aside, above = np.abs(x[early] - x[late]), np.abs(y[early] - y[late])
    aside, above = np.minimum(aside, ground.width - aside), np.minimum(above, ground.height - above)
    reach = ground.radii[kind[early]] + ground.radii[kind[late]]
    clash = aside * aside + above * above < reach * reach
    early, late = early[clash], late[clash]
    open_ = np.ones(len(x), dtype=bool)
    while len(early):
        waits = np.zeros(len(x), dtype=bool)
        waits[late] = True
        settled = open_ & ~waits
        stays |= settled
        out = np.zeros(len(x), dtype=bool)
        out[late[settled[early]]] = True
        open_ &= ~settled & ~out
        live = open_[early] & open_[late]
        early, late = early[live], late[live]
    return stays | open_


def check_sizes(width: float, height: float, sizes: Array) -> None:
    """Refuse sides and sizes that are not numbers above zero."""
    positive("The side of the field", width, "nm")
    positive("The side of the field", height, "nm")
    for size in sizes if sizes.size else (0.0,):
        positive("The size of the particles", float(size), "nm")


def _check(width: float, height: float, sizes: Array) -> None:
    check_sizes(width, height, sizes)
    if sizes.max() > WIDEST * sizes.min():
        raise SurfaceError.sizes_too_wide(float(sizes.min()), float(sizes.max()), WIDEST)
    discs = 0.75 * width * height / float(np.pi / 4 * sizes.min() * sizes.mean())
    if discs > MOST_DISCS:
        raise SurfaceError.too_many(int(discs), MOST_DISCS)
