"""Every error of the kernel, as a tree.

    StillroomError
    +-- DeclarationError        a plugin's author has something to mend
    |   +-- FormulaError        an equation that is not written in our small language
    |   +-- DimensionError      an equation whose two sides do not measure the same thing
    |   +-- NameClash           a name that is already taken
    +-- PolicyError             an operator's file that says what cannot be meant
    +-- UnitError               a unit that nobody declared, or the wrong dimension
    +-- RequestError            a request that names something the calculator has not
    +-- NotAnswered             the question is understood, but there is no number
        +-- Missing             too little is known
        +-- Contradiction       what is given disagrees with itself
        +-- OutOfBounds         a value that cannot be
        +-- Refused             a limit of the trade, of physics or of safety
        +-- SeveralRoots        more than one value fits

The message of each is a sentence that a bartender or a plugin's author can act on;
the data behind it are attributes.
"""

from __future__ import annotations

from collections.abc import Sequence


class StillroomError(Exception):
    """Base of all errors raised on purpose by the kernel."""


class DeclarationError(StillroomError):
    """A calculator, table or unit is declared in a way that cannot work."""


class FormulaError(DeclarationError):
    """An equation string is outside the small language of formulas."""


class DimensionError(DeclarationError):
    """An equation adds, compares or equates things that are measured differently."""


class NameClash(DeclarationError):
    """Two plugins claim the same name; the message names both owners."""


class PolicyError(StillroomError):
    """An operator's file is wrong; ``path`` is the file, ``wrong`` each thing in it that is."""

    def __init__(self, path: object, wrong: Sequence[str]):
        self.path, self.wrong = path, tuple(wrong)
        super().__init__(f"{path} cannot be used: {'; '.join(wrong)}.")


class UnitError(StillroomError):
    """An unknown unit, or a conversion between different dimensions."""


class RequestError(StillroomError):
    """A request names a calculator, variable, choice or unit that does not exist."""


class NotAnswered(StillroomError):
    """The question was understood, and there is no number to give."""


class Missing(NotAnswered):
    """Too little is known.

    ``sets`` holds each smallest set of variable names that would be enough.
    """

    def __init__(self, wanted: Sequence[str], sets: Sequence[Sequence[str]]):
        self.wanted = tuple(wanted)
        self.sets = tuple(tuple(s) for s in sets)
        enough = "; or ".join(" and ".join(_plain(n) for n in s) for s in self.sets) or "more than it can name"
        super().__init__(f"To find {', '.join(_plain(w) for w in wanted)} I still need {enough}.")


class Contradiction(NotAnswered):
    """A given value disagrees with what the other given values imply.

    ``name`` is the variable, ``given`` and ``implied`` are its two values as text, ``assumed`` what else the
    second of them rests on.
    """

    def __init__(self, name: str, given: str, implied: str, assumed: Sequence[str] = ()):
        self.name, self.given, self.implied, self.assumed = name, given, implied, tuple(assumed)
        taking = f", taking {' and '.join(assumed)}" if assumed else ""
        super().__init__(f"That does not add up: {_plain(name)} is given as {given}, "
                         f"but the rest makes it {implied}{taking}.")


class OutOfBounds(NotAnswered):
    """A value lies outside what is possible for its variable."""


class Refused(NotAnswered):
    """A declared limit forbids the answer; the message is the limit's own reason."""


class Unlikely(Refused):
    """A declared limit holds the values for a misreading: nobody would mean them."""


class SeveralRoots(NotAnswered):
    """More than one value satisfies every equation; ``roots`` holds them as text."""

    def __init__(self, name: str, roots: Sequence[str]):
        self.name, self.roots = name, tuple(roots)
        super().__init__(f"More than one {_plain(name)} fits: {' or '.join(roots)}. Which one is meant?")


def _plain(name: str) -> str:
    return name.replace("_", " ")
