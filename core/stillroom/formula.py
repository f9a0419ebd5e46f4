"""Formulas: a small arithmetic language, parsed once into prefix trees.

A tree is a number (``float``), a name (``str``) or a tuple ``(operator, *operands)``
with the operators ``+ - * / **``, unary ``neg`` and ``call`` (whose first operand is
the function's name).  The dimension check, sympy and the kept plan share these trees;
they are plain data, so that a plan can be written to disk as JSON and read back
without ever evaluating text.
"""

from __future__ import annotations

import ast
import math
from collections.abc import Callable, Iterator, Mapping, Set
from functools import lru_cache
from typing import Any, TypeAlias

from .errors import FormulaError

Tree: TypeAlias = "float | str | tuple[Any, ...]"

BINARY: Mapping[type[ast.operator], str] = {
    ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Pow: "**",
}
NODES: Mapping[str, type[ast.operator]] = {sign: node for node, sign in BINARY.items()}
COMPARE: Mapping[type[ast.cmpop], str] = {ast.LtE: "<=", ast.GtE: ">=", ast.Lt: "<", ast.Gt: ">"}
BUILTINS: Mapping[str, Callable[..., float]] = {
    "ceil": lambda x: float(math.ceil(x - 1e-9 * max(1.0, abs(x)))),
    "floor": lambda x: float(math.floor(x + 1e-9 * max(1.0, abs(x)))),
    "min": min, "max": max,
}
MAX_DEPTH = 40
MAX_NODES = 4000
MAX_LENGTH = 2000


@lru_cache(maxsize=4096)
def parse(text: str) -> Tree:
    """The tree of an expression such as ``"dose * water"``.

    Raises FormulaError for anything but finite numbers, names, ``+ - * / **``, brackets and
    calls of plain functions, and for a text of more than 2000 characters.
    """
    return _tree(_python(text, "a formula"), text, 0)


def _python(text: str, what: str) -> ast.expr:
    if len(text) > MAX_LENGTH:
        raise FormulaError(f"{text[:40]!r}... is not {what}: it has more than {MAX_LENGTH} characters.")
    try:
        return ast.parse(text.strip(), mode="eval").body
    except SyntaxError as e:
        raise FormulaError(f"{text!r} is not {what}: {e.msg}.") from None
    except (ValueError, RecursionError, MemoryError) as e:
        raise FormulaError(f"{text!r} is not {what}: {type(e).__name__}.") from None


def _tree(node: ast.expr, text: str, depth: int) -> Tree:
    if depth > MAX_DEPTH:
        raise FormulaError(f"{text!r} is nested more than {MAX_DEPTH} deep.")
    match node:
        case ast.Constant(value=bool()):
            pass
        case ast.Constant(value=int() | float() as number):
            return _number(number, text)
        case ast.Name(id=name):
            return name
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return ("neg", _tree(inner, text, depth + 1))
        case ast.BinOp(left=left, op=op, right=right) if type(op) in BINARY:
            return (BINARY[type(op)], _tree(left, text, depth + 1), _tree(right, text, depth + 1))
        case ast.Call(func=ast.Name(id=name), args=args, keywords=[]):
            return ("call", name, *(_tree(a, text, depth + 1) for a in args))
    raise FormulaError(f"{text!r}: only numbers, names, + - * / **, brackets and functions may stand in a formula.")


def _number(number: float, text: str) -> float:
    try:
        value = float(number)
    except OverflowError:
        value = math.inf
    if math.isinf(value):
        raise FormulaError(f"{text!r} has a number that is too large.")
    return value


def equation(text: str) -> tuple[Tree, Tree]:
    """Both sides of ``"left = right"``.  Raises FormulaError."""
    left, sign, right = (part.strip() for part in text.partition("="))
    if not sign or "=" in right:
        raise FormulaError(f"{text!r} is not an equation: it needs exactly one '='.")
    return parse(left), parse(right)


@lru_cache(maxsize=4096)
def comparison(text: str) -> tuple[str, Tree, Tree]:
    """``(sign, left, right)`` of ``"liquid <= size"``.  Raises FormulaError."""
    match _python(text, "a comparison"):
        case ast.Compare(left=left, ops=[op], comparators=[right]) if type(op) in COMPARE:
            return COMPARE[type(op)], _tree(left, text, 0), _tree(right, text, 0)
    raise FormulaError(f"{text!r} is not a comparison: write it as 'this <= that'.")


def names(tree: Tree) -> frozenset[str]:
    """The names that stand in a tree, functions' names left out."""
    return frozenset(n for n in walk(tree) if isinstance(n, str))


def walk(tree: Tree) -> Iterator[Tree]:
    """Every node of a tree, the operators' and functions' names left out."""
    stack = [tree]
    while stack:
        node = stack.pop()
        yield node
        if isinstance(node, tuple):
            stack.extend(node[2:] if node[0] == "call" else node[1:])


def calls(tree: Tree) -> Iterator[tuple[Any, ...]]:
    """Every function call in a tree."""
    return (n for n in walk(tree) if isinstance(n, tuple) and n[0] == "call")


def rename(tree: Tree, new: Mapping[str, str]) -> Tree:
    """The tree with names replaced, function names kept."""
    if isinstance(tree, str):
        return new.get(tree, tree)
    if isinstance(tree, tuple):
        keep = 2 if tree[0] == "call" else 1
        return (*tree[:keep], *(rename(t, new) for t in tree[keep:]))
    return tree


def show(tree: Tree) -> str:
    """The tree as a person would write it."""
    return _show(tree, 0)


_RANK = {"+": 1, "-": 1, "*": 2, "/": 2, "neg": 3, "**": 4}
_SIGN = {"*": "×", "-": "−", "**": "^"}


def _show(tree: Tree, outer: int) -> str:
    if isinstance(tree, float):
        return f"{tree:.10g}"
    if isinstance(tree, str):
        return tree.replace("_", " ")
    if tree[0] == "call":
        return f"{tree[1].replace('_', ' ')}({', '.join(_show(t, 0) for t in tree[2:])})"
    rank = _RANK[tree[0]]
    if tree[0] == "neg":
        text = "−" + _show(tree[1], rank)
    else:
        right = rank + (tree[0] in ("-", "/", "**"))
        text = f"{_show(tree[1], rank)} {_SIGN.get(tree[0], tree[0])} {_show(tree[2], right)}"
    return f"({text})" if rank < outer else text


def to_ast(tree: Tree, name: Callable[[str], ast.expr], call: Callable[[str, list[ast.expr]], ast.expr]) -> ast.expr:
    """The tree as a Python expression node; names and calls are made by the caller."""
    if isinstance(tree, float):
        return ast.Constant(tree)
    if isinstance(tree, str):
        return name(tree)
    if tree[0] == "call":
        return call(tree[1], [to_ast(t, name, call) for t in tree[2:]])
    if tree[0] == "neg":
        return ast.UnaryOp(ast.USub(), to_ast(tree[1], name, call))
    return ast.BinOp(to_ast(tree[1], name, call), NODES[tree[0]](), to_ast(tree[2], name, call))


def from_json(data: Any, known: Set[str], functions: Mapping[str, int | None], depth: int = 0) -> Tree:
    """A tree read back from untrusted JSON; ``functions`` says how many arguments each takes (None: any, but some).

    Raises ValueError unless every operator, arity, name and number is one of ours.
    """
    if depth > MAX_DEPTH * 4:
        raise ValueError("too deep")
    if isinstance(data, str):
        if data not in known:
            raise ValueError(f"unknown name {data!r}")
        return data
    if isinstance(data, (int, float)) and not isinstance(data, bool):
        if not math.isfinite(data):
            raise ValueError("not finite")
        return float(data)
    if not isinstance(data, list) or not data:
        raise ValueError("not a tree")
    head, rest = data[0], data[1:]
    if head == "call":
        if not rest or not isinstance(rest[0], str) or rest[0] not in functions:
            raise ValueError("unknown function")
        if len(rest) < 2 or functions[rest[0]] not in (None, len(rest) - 1):
            raise ValueError(f"a wrong number of arguments for {rest[0]}")
        return ("call", rest[0], *(from_json(r, known, functions, depth + 1) for r in rest[1:]))
    if not isinstance(head, str) or head not in ("neg", *NODES) or len(rest) != (1 if head == "neg" else 2):
        raise ValueError(f"not an operator of ours: {head!r}")
    return (head, *(from_json(r, known, functions, depth + 1) for r in rest))


def to_json(tree: Tree) -> Any:
    """The tree as JSON lists."""
    return [tree[0], *(to_json(t) for t in tree[1:])] if isinstance(tree, tuple) else tree


def evaluate(tree: Tree, values: Mapping[str, Any], functions: Mapping[str, Callable[..., float]] = BUILTINS) -> float:
    """The number a tree stands for.  Raises KeyError for a name without a value."""
    if isinstance(tree, float):
        return tree
    if isinstance(tree, str):
        return values[tree]  # type: ignore[no-any-return]
    head, rest = tree[0], tree[1:]
    if head == "call":
        return functions[rest[0]](*(evaluate(t, values, functions) for t in rest[1:]))
    a = evaluate(rest[0], values, functions)
    if head == "neg":
        return -a
    b = evaluate(rest[1], values, functions)
    if head == "+":
        return a + b
    if head == "-":
        return a - b
    if head == "*":
        return a * b
    return a / b if head == "/" else a ** b
