"""What a plugin's author writes: variables, choices, equations, limits, and a calculator of them.

    tea = Calculator("extraction", "Leaf for cold-brewed tea",
        var("leaf", "gram", "leaf, tea"),
        var("water", "liter"),
        var("dose", "gram / liter", "dose, strength", default=8, usual=(4, 15)),
        equations=["leaf = dose * water"],
        example=("how much tea for 1.5 l of water?", "12 gram"),
        source="common practice")

A declaration is data.  It says what is true; which of the variables is asked for is the
question's business.
"""

from __future__ import annotations

import keyword
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any, TypeAlias

from . import formula
from .errors import DeclarationError
from .formula import Tree

NAME = re.compile(r"[a-z][a-z0-9_]{0,39}\Z")
ROLES = frozenset({"", "of", "from", "to", "with", "per", "have", "need", "add", "each", "into", "lost", "since"})
ACTIONS = frozenset({"refuse", "caution", "doubt"})
Default: TypeAlias = "float | str | None"


def words_of(text: str | Iterable[str]) -> tuple[str, ...]:
    """The spellings in ``"leaf, tea leaf"`` (or with ``;``, as a cell of a table has them) or in a list, lower case."""
    parts = re.split("[,;]", text) if isinstance(text, str) else text
    return tuple(p.strip().lower() for p in parts if p.strip())


@dataclass(frozen=True, slots=True)
class Variable:
    """A quantity.  Bounds, usual range and a numeric default are in ``unit``."""

    name: str
    unit: str
    words: tuple[str, ...]
    low: float | None = 0.0
    high: float | None = None
    usual: tuple[float, float] | None = None
    default: Default = None
    note: str = ""
    role: str = ""
    things: tuple[str, ...] = ()
    named_by: tuple[str, str] | None = None
    whole: str = ""
    show: str = ""
    keeps: bool = False
    state: str = ""
    hidden: bool = False
    ratio: tuple[str, str] | None = None
    habit: bool = True
    shy: bool = False
    rising: bool = False

    @property
    def title(self) -> str:
        """The name as it is read out."""
        return self.name.replace("_", " ")


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a choice's table: its words, the numbers it supplies, and where they come from."""

    id: str
    words: tuple[str, ...]
    values: Mapping[str, Any] = field(hash=False, default_factory=dict)
    source: str = ""
    caution: str = ""
    refuse: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """Names a row of a table; ``fills`` maps a variable to the column that supplies it."""

    name: str
    rows: Mapping[str, Row] = field(hash=False)
    fills: Mapping[str, str] = field(hash=False, default_factory=dict)
    default: str | None = None
    note: str = ""
    words: tuple[str, ...] = ()
    keeps: bool = False

    @property
    def title(self) -> str:
        """The name as it is read out."""
        return self.name.replace("_", " ")


@dataclass(frozen=True, slots=True)
class Limit:
    """``test`` must hold, or the answer is refused, carries a caution, or is held a misreading, for ``reason``."""

    test: str
    action: str
    reason: str


@dataclass(frozen=True, slots=True)
class Function:
    """A table or a published formula that equations may call.

    ``takes`` are the units of its numeric arguments, ``gives`` that of its result.  An
    argument whose unit is ``"choice"`` receives the id of the chosen row.  ``domain`` is the
    range of the last argument, in its unit, within which a value may be searched; where it
    depends on a choice it maps row ids to ranges, and the function serves only those rows.
    """

    name: str
    call: Callable[..., float] = field(hash=False)
    takes: tuple[str, ...]
    gives: str
    domain: tuple[float, float] | Mapping[str, tuple[float, float]] | None = field(default=None, hash=False)
    source: str = ""
    version: str = "1"


@dataclass(frozen=True, slots=True)
class Whole:
    """A one-way step after the solution: ``name := formula``, of whole things."""

    name: str
    formula: str


@dataclass(frozen=True, slots=True)
class Lines:
    """How a calculator reads a spec.

    ``sums`` maps a variable to what is added up over the lines (``"volume * abv"``).  In it stand
    ``amount`` as it was said, ``volume`` and ``mass`` (through a density where the substance has
    one) and attributes; a line that has no such volume or mass is left out, and that is said.
    ``columns`` is the unit of each attribute (``amount``: of the line's own kind); ``fills`` the
    substance column that supplies it when the line does not say.  ``holds`` are the kinds of
    substance that may have some of an attribute although their row does not say how much (all
    kinds, if it names none; a thing without a row always may): such a line is asked for it if
    ``needs`` names the attribute, else it counts as none, and that is said.
    ``each`` maps a result of every line to its formula (``"amount * factor"``); ``least`` a
    variable to the smallest over the lines that have what it takes (``"supply / amount"``).
    ``words`` are the nouns by which an attribute is called.
    """

    sums: Mapping[str, str] = field(hash=False, default_factory=dict)
    each: Mapping[str, str] = field(hash=False, default_factory=dict)
    columns: Mapping[str, str] = field(hash=False, default_factory=dict)
    fills: Mapping[str, str] = field(hash=False, default_factory=dict)
    holds: Mapping[str, str] = field(hash=False, default_factory=dict)
    least: Mapping[str, str] = field(hash=False, default_factory=dict)
    words: Mapping[str, str] = field(hash=False, default_factory=dict)
    needs: tuple[str, ...] = ()
    minimum: int = 1


def var(name: str, unit: str, words: str | Iterable[str] = "", *, bounds: tuple[float | None, float | None] = (0, None),
        usual: tuple[float, float] | None = None, default: Default = None, note: str = "", role: str = "",
        things: str = "", named_by: str = "", whole: str = "", show: str = "", keeps: bool = False,
        state: str = "", hidden: bool = False, ratio: str = "", habit: bool = True,
        shy: bool = False, rising: bool = False) -> Variable:
    """Declare a quantity.

    ``unit`` is any unit of the registry; ``bounds`` and ``usual`` are in it.  ``words`` are the
    nouns by which people call it (its name, if none).  ``default`` is a number in ``unit`` or a
    formula; it is stated with ``note`` whenever it is used.  ``role`` says how it is spoken of
    (``from``, ``to``, ``with``, ``per``, ``have``, ``need``, ``add``, ``each``, ``since``...).  ``things`` are kinds of
    substance it may be an amount of; ``named_by="choice.column"`` takes its words from the
    chosen row.  ``whole`` rounds the answer ``up`` or ``down``; ``show`` is the unit it is answered
    in; ``keeps`` lets a chat keep its own default; ``state`` is ``dry`` or ``liquid`` where that decides
    what an ounce is.  ``ratio="drink:milk"`` names the variables whose quotient it is, in the job's own
    order (``habit=False`` where the trade has no order, or may well go below one; ``rising`` where the smaller
    term comes first, as ``1:5`` of solids to spirit).  A ``shy`` variable is given or
    asked for only where it is named (a density, the gas in a charger).

    Raises DeclarationError for a name or role that cannot be.
    """
    if not NAME.match(name) or keyword.iskeyword(name):
        raise DeclarationError(f"{name!r} cannot name a variable: use lower case letters, digits and _, no keyword.")
    if role not in ROLES:
        roles = ", ".join(sorted(r for r in ROLES if r))
        raise DeclarationError(f"{name}: {role!r} is no role; the roles are {roles}.")
    choice, _, column = named_by.partition(".")
    over, sign, under = (part.strip() for part in ratio.partition(":"))
    return Variable(name, unit, words_of(words) or (name.replace("_", " "),), *bounds, usual, default, note, role,
                    words_of(things), (choice, column or "words") if named_by else None, whole, show or unit, keeps,
                    state, hidden, (over, under) if sign else None, habit, shy, rising)


def choice(name: str, table: Iterable[Mapping[str, Any]] | Mapping[str, Row], *, fills: Mapping[str, str] | None = None,
           default: str | None = None, note: str = "", words: str = "", keeps: bool = False) -> Choice:
    """Declare a choice among the rows of a table.

    A row is a mapping with ``id``, ``words``, ``source`` and the columns that ``fills`` names
    (``{"density": "density"}``: the variable, then the column, in the variable's unit).  A row's
    ``caution`` goes with every answer about it, what it ``assumes`` is stated, its ``refuse`` forbids one.

    Raises DeclarationError for a row without an id or a source.
    """
    if isinstance(table, Mapping):
        rows = dict(table)
    else:
        rows = {}
        for data in table:
            if not data.get("id") or not data.get("source"):
                raise DeclarationError(f"A row of {name!r} lacks an id or a source: {dict(data)!r}.")
            rows[str(data["id"])] = Row(
                str(data["id"]), words_of(data.get("words") or str(data["id"]).replace("_", " ")), data,
                str(data["source"]), str(data.get("caution") or ""), str(data.get("refuse") or ""))
    if default is not None and default not in rows:
        raise DeclarationError(f"{name!r} has no row {default!r} to default to.")
    return Choice(name, rows, dict(fills or {}), default, note, words_of(words), keeps)


def limit(test: str, action: str, reason: str) -> Limit:
    """Declare that ``test`` (``"liquid <= size"``) must hold.

    ``action`` is ``refuse``, ``caution`` or ``doubt``; ``reason`` is the sentence that the reader gets.  To
    ``doubt`` is to refuse what nobody would mean (a lime with two litres of juice): another way to read the same
    numbers is preferred to it.

    Raises DeclarationError for another action, FormulaError for what is no comparison.
    """
    if action not in ACTIONS:
        raise DeclarationError(f"The limit {test!r} can 'refuse', 'caution' or 'doubt', not {action!r}.")
    formula.comparison(test)
    return Limit(test, action, reason)


def whole(text: str) -> Whole:
    """Declare a one-way step: ``whole("boxes := ceil(chargers / box)")``.  Raises DeclarationError without ``:=``."""
    name, sign, right = text.partition(":=")
    if not sign:
        raise DeclarationError(f"{text!r} is not a step: write it as 'name := formula'.")
    return Whole(name.strip(), right.strip())


@dataclass(frozen=True)
class Calculator:
    """A job: its variables, what is true of them, and how people speak of it.

    ``name`` is unique within its plugin; ``title`` says the job in a line.  ``words`` are its topic
    (it is considered only where one of ``only`` is said, if there are any, and one of ``also`` as well);
    ``asked`` lists what is meant when nobody says what is asked, most direct first.
    ``method`` are steps with variables in braces.  ``examples`` are (question, answer) pairs.
    """

    name: str
    title: str
    parts: tuple[Variable | Choice, ...]
    equations: tuple[str, ...]
    limits: tuple[Limit, ...] = ()
    steps: tuple[Whole, ...] = ()
    functions: tuple[Function, ...] = ()
    lines: Lines | None = None
    words: tuple[str, ...] = ()
    only: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    method: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    conventions: tuple[str, ...] = ()
    examples: tuple[tuple[str, str], ...] = ()
    sources: tuple[str, ...] = ()
    constants: Mapping[str, tuple[float, str]] = field(default_factory=dict, hash=False)

    def __init__(self, name: str, title: str, *parts: Variable | Choice | Calculator,
                 equations: Sequence[str] = (), limits: Sequence[Limit] = (), steps: Sequence[str | Whole] = (),
                 functions: Sequence[Function] = (), lines: Lines | None = None, words: str | Iterable[str] = "",
                 only: str | Iterable[str] = "", also: str | Iterable[str] = "",
                 asked: str | Sequence[str] = "", method: Sequence[str] = (),
                 cautions: Sequence[str] = (), conventions: Sequence[str] = (), example: tuple[str, str] | None = None,
                 examples: Sequence[tuple[str, str]] = (), source: str = "", sources: Sequence[str] = (),
                 constants: Mapping[str, tuple[float, str]] | None = None):
        put = object.__setattr__
        if not NAME.match(name):
            raise DeclarationError(f"{name!r} cannot name a calculator: use lower case letters, digits and _.")
        put(self, "name", name)
        put(self, "title", title)
        included = [p for p in parts if isinstance(p, Calculator)]
        own = [p for p in parts if not isinstance(p, Calculator)]

        def gather(attribute: str, mine: Iterable[Any]) -> tuple[Any, ...]:
            return tuple(dict.fromkeys([*(x for c in included for x in getattr(c, attribute)), *mine]))

        replaced = {p.name for p in own}
        put(self, "parts", (*(p for c in included for p in c.parts if p.name not in replaced), *own))
        put(self, "equations", gather("equations", equations))
        put(self, "limits", gather("limits", limits))
        put(self, "steps", gather("steps", [whole(s) if isinstance(s, str) else s for s in steps]))
        put(self, "functions", gather("functions", functions))
        put(self, "lines", lines)
        put(self, "words", words_of(words))
        put(self, "only", words_of(only))
        put(self, "also", words_of(also))
        put(self, "asked", words_of(asked))
        put(self, "method", tuple(method))
        put(self, "cautions", gather("cautions", cautions))
        put(self, "conventions", gather("conventions", conventions))
        put(self, "examples", tuple(examples) + ((example,) if example else ()))
        put(self, "sources", gather("sources", [*([source] if source else []), *sources]))
        merged = {k: v for c in included for k, v in c.constants.items()}
        put(self, "constants", {**merged, **(constants or {})})
        names = [p.name for p in self.parts] + list(self.constants)
        twice = {n for n in names if names.count(n) > 1}
        if twice:
            raise DeclarationError(f"{name}: {', '.join(sorted(twice))} is declared twice.")

    @property
    def variables(self) -> dict[str, Variable]:
        """The quantities by name, in declared order."""
        return {p.name: p for p in self.parts if isinstance(p, Variable)}

    @property
    def choices(self) -> dict[str, Choice]:
        """The choices by name, in declared order."""
        return {p.name: p for p in self.parts if isinstance(p, Choice)}


def include(other: Calculator, **names: str) -> Calculator:
    """Another calculator's variables and equations, under other names, as a part of a new one.

    ``include(solution, salt="solute")`` calls ``solution``'s ``solute`` by the name ``salt``.

    Raises DeclarationError for a name that the other has not.
    """
    new = {old: public for public, old in names.items()}
    unknown = sorted(set(new) - {p.name for p in other.parts})
    if unknown:
        raise DeclarationError(f"{other.name} has no {', '.join(unknown)} to include.")
    if not new:
        return other

    def text(source: str) -> str:
        return re.sub(r"[a-z_][a-z0-9_]*", lambda m: new.get(m.group(), m.group()), source)

    def part(p: Variable | Choice) -> Variable | Choice:
        if isinstance(p, Choice):
            return replace(p, name=new.get(p.name, p.name), fills={new.get(v, v): c for v, c in p.fills.items()})
        named = (new.get(p.named_by[0], p.named_by[0]), p.named_by[1]) if p.named_by else None
        default = text(p.default) if isinstance(p.default, str) else p.default
        return replace(p, name=new.get(p.name, p.name), default=default, named_by=named)

    return Calculator(
        other.name, other.title, *(part(p) for p in other.parts), equations=[text(e) for e in other.equations],
        limits=[replace(x, test=text(x.test)) for x in other.limits],
        steps=[Whole(new.get(s.name, s.name), text(s.formula)) for s in other.steps], functions=other.functions,
        cautions=other.cautions, conventions=other.conventions, sources=other.sources, constants=other.constants)


def parsed(calculator: Calculator) -> list[tuple[Tree, Tree]]:
    """Both sides of each equation as trees.  Raises FormulaError."""
    return [formula.equation(e) for e in calculator.equations]
