"""Recomputation by digest: a node runs again only when something it reads has changed.

A node's key hashes its name and version, the data version, the digests of the outputs it reads, the edits and
options it reads, and the seed. Equal key: the value is taken from a bounded store, so undo is instant and an edit
that leaves an output equal recomputes nothing behind it.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Mapping, Sequence
from threading import Lock
from typing import Any, NamedTuple

from formulate.domain.edit import Edit
from formulate.domain.model import digest, short_hash
from formulate.domain.reason import Reason
from formulate.errors import Stopped

KEPT = 64
"""Values kept for each fast node."""
KEPT_SLOW = 8
"""Values kept for each slow node: draws of a long list fill tens of megabytes."""


class Inputs(NamedTuple):
    """What a computation starts from: the pasted text, edits in force, options, seed.

    ``stop`` and ``progress`` reach slow nodes; they are no part of any key.
    """

    text: str
    text_id: str
    edits: tuple[Edit, ...]
    options: Mapping[str, str | None]
    seed: int | None = None
    stop: Callable[[], bool] | None = None
    progress: Callable[[int, int, str], None] | None = None


class Output(NamedTuple):
    """What a node gave: its value, its reasons, and the digest of both."""

    value: Any
    reasons: Mapping[str, Reason]
    digest: str


class Node(NamedTuple):
    """A pure function with what it reads: other nodes, edit fields, options. ``fast`` nodes run at once."""

    name: str
    version: int
    depends: tuple[str, ...]
    edit_fields: frozenset[str]
    options: tuple[str, ...]
    run: Callable[[Inputs, Mapping[str, Output]], tuple[Any, Mapping[str, Reason]]]
    fast: bool = True


class Graph:
    """Runs nodes in order and remembers what they gave."""

    def __init__(self, nodes: Sequence[Node], data_version: str) -> None:
        self._nodes = {node.name: node for node in nodes}
        self._data = data_version
        self._store: dict[str, OrderedDict[str, Output]] = {node.name: OrderedDict() for node in nodes}
        self._lock = Lock()  # one graph serves the threads of a screen
        self.runs: dict[str, int] = {node.name: 0 for node in nodes}

    def get(
        self,
        inputs: Inputs,
        wanted: str,
        stop: Callable[[], bool] | None = None,
        progress: Callable[[int, int, str], None] | None = None,
    ) -> dict[str, Output]:
        """Outputs of a node and all it rests on, computing what is missing.

        Raises
        ------
        Stopped
            If ``stop()`` turns true between two nodes, or within a slow one.
        """
        inputs = inputs._replace(stop=stop)
        order = self._order(wanted)
        done: dict[str, Output] = {}
        for number, node in enumerate(order, start=1):
            if stop is not None and stop():
                raise Stopped(node.name)
            if progress is not None:
                progress(number, len(order), node.name)
            done[node.name] = self._one(node, inputs, done)
        return done

    def _order(self, wanted: str) -> list[Node]:
        order: list[Node] = []

        def visit(name: str) -> None:
            for earlier in self._nodes[name].depends:
                visit(earlier)
            if self._nodes[name] not in order:
                order.append(self._nodes[name])

        visit(wanted)
        return order

    def _one(self, node: Node, inputs: Inputs, done: Mapping[str, Output]) -> Output:
        key = digest(
            [
                node.name,
                node.version,
                self._data,
                [done[name].digest for name in node.depends],
                [edit.model_dump(mode="json") for edit in inputs.edits if edit.field in node.edit_fields],
                {name: inputs.options.get(name) for name in node.options},
                inputs.seed,
                [] if node.depends else [inputs.text_id],
            ]
        )
        store = self._store[node.name]
        with self._lock:
            if key in store:
                store.move_to_end(key)
                return store[key]
        value, reasons = node.run(inputs, done)
        output = Output(value, reasons, short_hash((value, sorted(reasons))))
        with self._lock:
            self.runs[node.name] += 1
            store[key] = output
            while len(store) > (KEPT if node.fast else KEPT_SLOW):
                store.popitem(last=False)
        return output
