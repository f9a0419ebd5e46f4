"""What can be told of equations by looking: most unknowns stand once in theirs, and most equations stand alone.

Turning such an equation round takes microseconds, a computer algebra system tens of milliseconds; ``derive``, which
needs one, is asked for the rest only.
"""

from __future__ import annotations

from collections.abc import Sequence, Set

from . import formula
from .formula import Tree

LARGER = (("call", "max"), ("call", "min"))


def isolated(left: Tree, right: Tree, name: str) -> Tree | None:
    """What a name is, by an equation in which it stands once and only under ``+ - * /``; None for any other equation.

    Also None where the other side is but a number: ``0 = a * b`` finds nothing.  Of ``max(name, other)`` it is the
    larger: where the other one is, that does not add up when it is put back.
    """
    there = [formula.walk(side) for side in (left, right)]
    counts = [sum(node == name for node in nodes) for nodes in there]
    if sum(counts) != 1:
        return None
    tree, rest = (left, right) if counts[0] else (right, left)
    if isinstance(rest, float):
        return None
    while tree != name:
        if isinstance(tree, tuple) and tree[:2] in LARGER:
            tree = next(a for a in tree[2:] if name in formula.names(a))
            continue
        if not isinstance(tree, tuple) or tree[0] not in ("+", "-", "*", "/", "neg"):
            return None
        tree, rest = _peeled(tree, rest, name)
    return rest


def _peeled(tree: tuple[Tree, ...], rest: Tree, name: str) -> tuple[Tree, Tree]:
    """The operand in which the name stands, and what it is where ``tree`` is ``rest``."""
    if tree[0] == "neg":
        return tree[1], ("neg", rest)
    sign, a, b = tree
    first = name in formula.names(a)
    inside, other = (a, b) if first else (b, a)
    if sign == "+":
        return inside, ("-", rest, other)
    if sign == "*":
        return inside, ("/", rest, other)
    if sign == "-":
        return inside, ("+", rest, other) if first else ("-", other, rest)
    return inside, ("*", rest, other) if first else ("/", other, rest)


def bound(equations: Sequence[Set[str]]) -> tuple[int, ...]:
    """The indices of equations (as sets of their variables) of which one may follow from the others.

    One that has a variable which no other has follows from none, and none follows from it; nor then does it count
    for the rest.
    """
    left = dict(enumerate(equations))
    while alone := [i for i, names in left.items() if names - set().union(*(s for j, s in left.items() if j != i))]:
        for i in alone:
            del left[i]
    return tuple(left)
