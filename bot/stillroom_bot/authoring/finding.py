"""What is found about a plugin: how bad it is, what it is about, what is wrong, and what to do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any

LEVELS = ("error", "warning", "note")


@dataclass(frozen=True, slots=True)
class Finding:
    """``level`` is error, warning or note; ``about`` a calculator or the plugin; ``todo`` may be empty."""

    level: str
    about: str
    text: str
    todo: str = ""

    def to_json(self) -> dict[str, Any]:
        """Plain data."""
        return asdict(self)


ADVICE = (
    ("unknown hook", "The hooks are stillroom_calculators, _units, _substances, _refusals and _cautions."),
    ("Argument(s)", "Take the arguments that the table of hooks in DEVELOPERS.md gives this hook, by those names."),
    ("No module named", "Install what it imports, and name it in the dependencies of its pyproject.toml."),
    ("SyntaxError", "Python cannot read the file: run it by itself to see the line."),
    ("and was stopped", "Look for a loop without an end, or a Function too slow to be called a thousand times."),
    ("it took more than", "Loading may only declare: move work into a Function, and look for a loop without an end."),
    ("has no function marked", "Give the module a public Calculator, or a function marked with @hookimpl."),
    ("the left side measures", "Bring in what is missing: a variable, or constants={'name': (number, 'unit')}."),
    ("a plain number.", "A number in a formula has no unit: name it in constants={'name': (number, 'unit')}."),
    ("adds mass", "Bring both to one kind, through a density that is a variable or a constant."),
    ("adds volume", "Bring both to one kind, through a density that is a variable or a constant."),
    ("a percent by mass", "Use percent_ww with masses, percent_vv with volumes, and plain percent for other shares."),
    ("a percent by volume", "Use percent_ww with masses, percent_vv with volumes, and plain percent for other shares."),
    ("which is not declared", "Declare it with var(...), or spell it as it is declared."),
    ("which is not among its functions", "Name it in functions=[Function(...)]."),
    ("described twice", "Leave yours out, or give it an id and words of its own: what is there already is found."),
    ("defined twice", "Leave yours out and use the one that is there, or give yours another name."),
    ("lacks an id or a source", "Give the row both; without a published source say 'common practice, no source'."),
    ("There is no unit", "The units are in core/stillroom/units.csv; others come from the hook stillroom_units."),
    ("declared in a way that cannot work", "Compare the declaration with the signatures in core/stillroom/declare.py."),
    ("no source is named", "source='...' names a book, a standard, or 'common practice, no source'."),
    ("names no source", "Give the row a source, or 'common practice, no source'."),
    ("no example is given", "example=('a question as people ask it', '12 gram') is its documentation and its test."),
    ("no consistent point", "Its bounds, usual ranges and limits leave nothing: widen them."),
    ("outside its bounds", "Widen bounds=(low, high), or mend the number."),
    ("stillroom_cautions failed", "Mend the hook: it is called for every answer of every calculator."),
    ("failed with", "Mend the plugin's own code, or let it raise ValueError with a sentence for people."),
)


def advice(text: str) -> str:
    """What to do about a sentence of the kernel or the kit; empty where that is plain."""
    return next((todo for part, todo in ADVICE if part in text), "")


def counted(findings: list[Finding]) -> dict[str, int]:
    """How many of each level."""
    return {level: sum(f.level == level for f in findings) for level in LEVELS}


def told(findings: list[Finding]) -> Iterator[str]:
    """The findings as lines, the worst first."""
    for finding in sorted(findings, key=lambda f: LEVELS.index(f.level)):
        about = "" if finding.text.startswith(finding.about) else f"{finding.about}: "
        yield f"  {finding.level:<8} {about}{finding.text}"
        if finding.todo:
            yield f"           > {finding.todo}"
