"""What the reader makes of a message for one calculator: plain records, shared by the steps that fill them."""

from __future__ import annotations

from dataclasses import dataclass

from stillroom.model import Model

MASS = (1.0, 0.0, 0.0, 0.0, 0.0, 0.0)
VOLUME = (0.0, 3.0, 0.0, 0.0, 0.0, 0.0)
TIME = (0.0, 0.0, 1.0, 0.0, 0.0, 0.0)
HEAT = (0.0, 0.0, 0.0, 1.0, 0.0, 0.0)
MONEY = (0.0, 0.0, 0.0, 0.0, 1.0, 0.0)


@dataclass(slots=True)
class Use:
    """A quantity put to use: the variable, the unit it is read in, and what speaks for it.

    ``row`` is the choice that the words near it settle, ``inverse`` turns a ratio round, ``unordered``
    says that its order has to be asked, ``times`` multiplies it (``4 x 500 ml``).
    """

    quantity: int
    variable: str
    unit: str
    score: float
    row: tuple[str, str] | None = None
    inverse: bool = False
    evidence: float = 0.0
    unordered: bool = False
    times: float = 1.0


@dataclass(slots=True)
class Placement:
    """One joint assignment: numbers to variables, lines of a spec, attributes of lines, what is left over."""

    score: float
    uses: tuple[Use, ...]
    lines: tuple[int, ...] = ()
    attributes: tuple[tuple[int, int, str], ...] = ()
    unused: tuple[int, ...] = ()


@dataclass(slots=True)
class Wish:
    """What may be wanted: variables, the score of it, whether nobody said it, and rows that its words settle."""

    names: tuple[str, ...]
    score: float
    implied: bool
    rows: dict[str, str]


@dataclass(slots=True)
class Candidate:
    """One way in which a calculator can take a message.

    ``strange`` says that something is asked for which the calculator does not know, ``told`` that nothing is
    wanted but what is implied, although the question names what one of the numbers is read as.
    """

    model: Model
    uses: tuple[Use, ...]
    rows: dict[str, str]
    wanted: tuple[str, ...]
    score: float
    implied: bool
    parts: dict[str, float]
    lines: tuple[int, ...] = ()
    line_uses: tuple[tuple[int, int, str], ...] = ()
    unused: tuple[int, ...] = ()
    covered: frozenset[int] = frozenset()
    strange: bool = False
    told: bool = False
