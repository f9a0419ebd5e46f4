"""Which equations find which unknowns, and in what order.

The equations and unknowns form a bipartite graph.  A maximum matching and the
Dulmage-Mendelsohn decomposition tell what is determined, what is not, and which
equations are left over as checks; the strongly connected components of the determined
part are the blocks that must be solved together, listed in an order in which each needs
only the ones before it (Dulmage and Mendelsohn 1958; Tarjan 1972).
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Order:
    """``blocks`` of (equation indices, unknowns); ``checks`` are spare equations; ``open`` stay unknown."""

    blocks: tuple[tuple[tuple[int, ...], tuple[str, ...]], ...]
    checks: tuple[int, ...]
    open: frozenset[str]


def order(equations: Sequence[Set[str]], known: Set[str]) -> Order:
    """The order of solution for equations (as sets of names) when some names are known."""
    sets = [frozenset(e) - known for e in equations]
    rows = [i for i, s in enumerate(sets) if s]
    of_row: dict[int, str] = {}
    of_name: dict[str, int] = {}
    for i in sorted(rows, key=lambda i: len(sets[i])):
        _augment(i, sets, of_row, of_name, set())
    unknowns = sorted({n for s in sets for n in s})
    undetermined = _reach_open([n for n in unknowns if n not in of_name], sets, of_row)
    solved = {i: n for i, n in of_row.items() if n not in undetermined}
    blocks = _blocks(solved, sets)
    checks = tuple(i for i, s in enumerate(sets) if i not in of_row and not s & undetermined)
    return Order(tuple(blocks), checks, frozenset(undetermined))


def _augment(i: int, sets: Sequence[Set[str]], of_row: dict[int, str], of_name: dict[str, int],
             tried: set[str]) -> bool:
    for name in sorted(sets[i]):
        if name in tried:
            continue
        tried.add(name)
        if name not in of_name or _augment(of_name[name], sets, of_row, of_name, tried):
            of_row[i], of_name[name] = name, i
            return True
    return False


def _reach_open(start: list[str], sets: Sequence[Set[str]], of_row: dict[int, str]) -> set[str]:
    reached, queue = set(start), list(start)
    while queue:
        name = queue.pop()
        for i, s in enumerate(sets):
            if name in s and (partner := of_row.get(i)) is not None and partner not in reached:
                reached.add(partner)
                queue.append(partner)
    return reached


def _blocks(solved: dict[int, str], sets: Sequence[Set[str]]) -> list[tuple[tuple[int, ...], tuple[str, ...]]]:
    by_name = {n: i for i, n in solved.items()}
    index: dict[int, int] = {}
    low: dict[int, int] = {}
    stack: list[int] = []
    blocks: list[tuple[tuple[int, ...], tuple[str, ...]]] = []

    def visit(i: int) -> None:
        index[i] = low[i] = len(index)
        stack.append(i)
        for name in sorted(sets[i] - {solved[i]}):
            j = by_name[name]
            if j not in index:
                visit(j)
                low[i] = min(low[i], low[j])
            elif j in stack:
                low[i] = min(low[i], index[j])
        if low[i] == index[i]:
            cut = stack.index(i)
            members = sorted(stack[cut:])
            del stack[cut:]
            blocks.append((tuple(members), tuple(solved[m] for m in members)))

    for i in sorted(solved):
        if i not in index:
            visit(i)
    return blocks
