"""A chat's own measures and habits, said in plain words and taken back in plain words.

A setting is read from a clause of the message; what is left of the message is the question.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from stillroom.units import Unit, Units

from .reading.lexicon import Lexicon, stems_of
from .reading.quantities import Quantities
from .reading.quantity import Quantity
from .reading.reader import ANSWERS
from .reading.spelling import Speller
from .reading.tokens import Token, tokens_of
from .sizes import ASKING, Size, SizeFinder, with_names, without

IMPERIAL = {
    "fluid_ounce": "imperial_fluid_ounce",
    "pint": "imperial_pint",
    "quart": "imperial_quart",
    "gallon": "imperial_gallon",
}
BRIEF, BRIEFLY = 7, frozenset("please now only bar house here place throughout always".split())
LONGEST_CLAUSE = 400
BAR_OUNCE_NOW = "an ounce is the bar ounce of 30 ml"
BAR_OUNCE = {"fluid_ounce": "bar_ounce"}
PLAIN = {own: usual for swaps in (IMPERIAL, BAR_OUNCE) for usual, own in swaps.items()}
"""What a chat's ounces are without its setting."""
METRIC_CUPS = {"cup": "metric_cup", "tablespoon": "metric_tablespoon", "teaspoon": "metric_teaspoon"}
VERBS = frozenset(
    """use using switch set change go work we're were are measure default back make want again only answer reply
forget reset counted calibrated pour have has prefer prefers""".split()
)
AGAIN = frozenset("back again forget reset normal usual ordinary default standard regular original".split())
SETTING = VERBS | AGAIN | BRIEFLY | frozenset("only now everything unit ounce oz scale comma decimal".split())
"""What is said of a setting holds one of these, or a measure whose size it may be."""
CALLED = {"dropper": "drop", "pipette": "drop", "dasher": "dash"}
"""What a measure is taken with, and the measure."""
ORDINARY = ("ounce", "cups", "scale", "comma", "system")
LASTING = frozenset("my our we i we've i've always now house ours mine".split())
OWN = frozenset("my our house the a an one each this".split())
IS = frozenset("is = means holds hold at are gives give pours of has equals to measures".split())
FOR_GOOD = re.compile(
    r"[\W_]*(?:(?:and|so|ok|please|now|just|use|keep|remember|take|do|with|that|it|this|those|them|one|ones|from|on|then|"
    r"always|here|everywhere|thanks)\b[\W_]*)*",
    re.IGNORECASE,
)
"""``Use that from now on``: nothing but that a setting lasts."""
SPLIT = re.compile(
    r"(?:(?=[\s,;:])|(?<=\n))(?:"
    r"(?<=imperial ounces),\s+|(?<=bar oz),\s+|(?<=bar ounce),\s+|(?<=\w ounce):\s+|(?<=\w ounces):\s+|"
    r"(?<=metric cups),\s+|(?<=bar ounces),\s+(?!30 ?ml\b)|(?<=over here),\s+|(?<=from now on),\s+|"
    r"(?<!\s)\s+(?=(?:and|n|&) (?:give|tell|how|what)\b)|(?<=[.;!?])\s+|(?<=\n)\s*|"
    r",\s+(?=so\b)|,\s+(?=(?:the )?same\b)|(?<!\s)\s+(?=so (?:how|what)(?:'?s)?\b)|;\s*|(?<!\s)\s+(?=and the same\b)|"
    r"(?:(?<=\bounce)|(?<=\bounces)|(?<=\bmeasures)|(?<=\bcups)|(?<=\bhere))\s+"
    r"(?=(?:u[mh] )?(?:how (?:much|many)\b|what)))"
)
"""Where a clause ends: at white space, a comma, a colon or a semicolon, with these words beside it; or after a line."""


@dataclass(slots=True)
class Setting:
    """What a clause changes: keys and values of the settings (None takes one back), and how to say it."""

    changes: dict[str, Any]
    text: str


@dataclass(slots=True)
class Settled:
    """The message without its settings, the settings after it, and what to say of them.

    ``own`` are sizes of measures that hold for this question only, on their base units; ``remarks`` say so.
    """

    text: str
    settings: dict[str, Any]
    notes: list[str] = field(default_factory=list)
    own: dict[str, float] = field(default_factory=dict)
    remarks: list[str] = field(default_factory=list)


class SettingsReader:
    """Reads settings with the vocabulary of one kernel."""

    def __init__(self, lexicon: Lexicon, units: Units, speller: Speller):
        self.lexicon, self.units = lexicon, units
        self.finder = SizeFinder(lexicon, units, speller)
        self.measures = {w: u for u in units if u.adjustable for w in (u.words or (u.name,))}

    def settle(self, text: str, settings: Mapping[str, Any]) -> Settled:
        """Take out of a message what sets the chat's measures, and what a question says of its own."""
        after = dict(settings)
        notes: list[str] = []
        rest: list[str] = []
        said: list[tuple[Size, bool]] = []
        for clause in SPLIT.split(text) if len(text) <= 600 else [text]:
            sizes = self.finder.find(clause)
            if sizes:
                left = without(clause, sizes)
                said += [(x, self._lasting(clause)) for x in sizes]
                rest += [left] if self._asks_more(left) else []
                continue
            found = self._clause(clause)
            if found is None and (said or notes) and (_lasts(clause) or _echoes(clause, said)):
                continue
            if found is None:
                rest.append(clause)
                continue
            for key, value in found.changes.items():
                if value is None:
                    after.pop(key, None)
                else:
                    after[key] = value
            notes.append(found.text)
        question = " ".join(rest).strip()
        named = f"{said[0][0].unit.words[0]}s" if said else "ounces" if "ounce" in _changed(settings, after) else ""
        if named:
            question = with_names(question, named)
        own: dict[str, float] = {}
        remarks: list[str] = []
        for size, lasting in said:
            if lasting or not question.strip(" .,!?;:"):
                after[f"size:{size.unit.name}"] = size.base
                notes.append(self._sized(size.unit, size.base, size.said).text)
            else:
                own[size.unit.name] = size.base
                remarks.append(f"a {size.unit.name.replace('_', ' ')} is {size.said} in this question")
        return Settled(question if notes or said else text, after, notes, own, remarks)

    def _lasting(self, clause: str) -> bool:
        """Is a size said of the bar's own measure (``my dropper``, ``from now on``), in a clause that asks nothing?"""
        words = {t.text for t in tokens_of(clause)}
        return bool(words & LASTING) and not words & ASKING and not clause.rstrip().endswith("?")

    def _asks_more(self, left: str) -> bool:
        """Does anything stand in a clause beside the size that it says?"""
        tokens = tokens_of(left)
        counted = any(not q.weak for q in Quantities(tokens, self.lexicon).find())
        return counted or bool({t.text for t in tokens} & ASKING) or left.rstrip().endswith("?")

    def _clause(self, clause: str) -> Setting | None:
        tokens = [] if len(clause) > LONGEST_CLAUSE or clause.rstrip().endswith("?") else tokens_of(clause)
        if not tokens or len(tokens) > 40:
            return None
        words = [t.text for t in tokens]
        stems = {t.stem for t in tokens}
        if not ASKING.isdisjoint(words) or (SETTING.isdisjoint(stems) and self.finder.measures.isdisjoint(stems)):
            return None
        quantities = Quantities(tokens, self.lexicon).find()
        return (
            self._size(tokens, quantities)
            or self._scale(stems, quantities)
            or (self._taken_back(stems) if all(q.weak for q in quantities) else None)
            or self._system(words, stems, quantities)
            or self._comma(words)
        )

    def _size(self, tokens: list[Token], quantities: list[Quantity]) -> Setting | None:
        """``our dash is 0.9 ml``, ``a barspoon holds 4 ml``."""
        for q in quantities:
            if not q.units or q.noise or q.unsized or self._adjustable(q) is not None:
                continue
            unit = self.units[q.units[0]]
            if unit.dimension not in ((0.0, 3.0, 0.0, 0.0, 0.0, 0.0), (1.0, 0.0, 0.0, 0.0, 0.0, 0.0)):
                continue
            i = q.first - 1
            while i >= 0 and tokens[i].text in ("about", "exactly", "only", "just", "now", "here", "always"):
                i -= 1
            if i < 1 or tokens[i].text not in IS or _to_the_ounce(tokens, q):
                continue
            while i > 1 and tokens[i - 1].text in ("here", "now"):
                i -= 1
            name, j = self._measure_before(tokens, i)
            if name is None or (j >= 0 and tokens[j].text not in OWN):
                continue
            amount = q.value * unit.factor
            if amount > 0:
                return self._sized(name, amount, f"{q.value:g} {unit.symbol}")
        return None

    def _measure_before(self, tokens: list[Token], i: int) -> tuple[Unit | None, int]:
        for n in (3, 2, 1):
            if i - n >= 0:
                word = " ".join(t.stem for t in tokens[i - n : i])
                unit = next(
                    (
                        u
                        for w, u in self.measures.items()
                        if w in (word, word + "s")
                        or stems_of(w) == tuple(t.stem for t in tokens[i - n : i])
                    ),
                    None,
                )
                if unit is not None:
                    return unit, i - n - 1
        return None, -1

    def _sized(self, unit: Unit, base: float, said: str) -> Setting:
        return Setting({f"size:{unit.name}": base}, f"a {unit.name.replace('_', ' ')} is {said} from now on")

    def _adjustable(self, q: Quantity) -> Unit | None:
        if q.noise:
            return None
        return next((self.units[u] for u in q.units if self.units[u].adjustable), None)

    def _volume(self, q: Quantity) -> bool:
        return self.units[q.units[0]].dimension == (0.0, 3.0, 0.0, 0.0, 0.0, 0.0)

    def _scale(self, stems: set[str], quantities: list[Quantity]) -> Setting | None:
        """``my scale reads in 0.1 g steps``."""
        if "scale" not in stems or not stems & {
            "read",
            "step",
            "resolution",
            "accurate",
            "weigh",
            "show",
            "display",
            "go",
        }:
            return None
        for q in quantities:
            if q.units and self.units[q.units[0]].dimension[0] == 1.0 and self.units[q.units[0]].dimension[1] == 0.0:
                grams = q.value * self.units[q.units[0]].factor
                if 0 < grams <= 50:
                    return Setting({"scale": grams}, f"your scale reads in steps of {grams:g} g")
        return None

    def _taken_back(self, stems: set[str]) -> Setting | None:
        """``forget our barspoon``, ``go back to ordinary ounces``."""
        stems = stems | {of for said, of in CALLED.items() if said in stems}
        if not stems & AGAIN or (not stems & {"back", "again", "forget", "reset"} and not stems & VERBS):
            return None
        for w, u in self.measures.items():
            if w in stems:
                usual = f" ({u.factor:g} ml)" if u.sized else ""
                return Setting(
                    {f"size:{u.name}": None}, f"the {u.name.replace('_', ' ')} is the usual one again{usual}"
                )
        if stems & {"ounce", "oz", "pint"} and not stems & {"imperial", "bar", "metric"}:
            return Setting({"ounce": None}, "ounces are US fluid ounces again, 29.57 ml")
        if stems & {"cup", "spoon", "tablespoon", "teaspoon"} and "metric" not in stems:
            return Setting({"cups": None}, "cups and spoons are US ones again")
        if stems & {"setting", "everything"} and stems & {"reset", "default", "forget"}:
            return Setting(
                dict.fromkeys((*ORDINARY, *(f"size:{u.name}" for u in self.measures.values()))),
                "everything is at its default again",
            )
        return None

    def _system(self, words: list[str], stems: set[str], quantities: list[Quantity]) -> Setting | None:
        real = [
            q
            for q in quantities
            if not q.noise and not (q.units and set(q.units) & {"imperial_fluid_ounce", "bar_ounce"})
            and not (q.implied and "fluid_ounce" in q.units)
        ]
        sizes = [q.value * self.units[q.units[0]].factor for q in real if q.units and self._volume(q)]
        if (asked := self._answers_in(words, stems, real)) is not None:
            return asked
        if stems & {"ounce", "oz"} and len(real) == 1 and sizes == [30.0] and stems & OWN and set(words) & IS:
            return Setting({"ounce": "bar"}, BAR_OUNCE_NOW)
        labelled = words[1:2] == [":"] and bool({"ounce", "oz", "unit"} & stems)
        briefly = labelled or (sum(t.isalnum() for t in words) <= BRIEF and bool(stems & BRIEFLY))
        if not stems & VERBS and not briefly:
            return None
        if (
            "imperial" in stems
            and stems & {"ounce", "oz", "pint", "unit", "measure", "gallon", "imperial"}
            and not real
        ):
            return Setting(
                {"ounce": "imperial"}, "ounces, pints, quarts and gallons are imperial (an ounce is 28.41 ml)"
            )
        if (stems & {"ounce", "oz"} and "bar" in stems and (not real or sizes == [30.0])) or (
            stems & {"ounce", "oz"} and len(sizes) == 1 and 29.9 < sizes[0] < 30.1 and len(real) == 1
        ):
            return Setting({"ounce": "bar"}, BAR_OUNCE_NOW)
        if stems & {"ounce", "oz"} and stems & {"us", "american"} and not real:
            return Setting({"ounce": None}, "ounces are US fluid ounces, 29.57 ml")
        if stems & {"cup", "spoon", "tablespoon"} and "metric" in stems and (not sizes or sizes == [250.0]):
            return Setting({"cups": "metric"}, "cups and spoons are metric (250, 15 and 5 ml)")
        if stems & {"cup", "spoon", "tablespoon"} and stems & {"us", "american"} and not real:
            return Setting({"cups": None}, "cups and spoons are US ones")
        return None

    def _answers_in(self, words: list[str], stems: set[str], real: list[Quantity]) -> Setting | None:
        """``metric please``, ``answer in ounces from now on``, ``back to grams``: the units of the answers.

        ``In oz please`` is said of the last answer only.
        """
        if real or len(words) > 8 or not stems & (VERBS | {"please", "only", "now", "everything", "unit"}):
            return None
        if stems & {"cup", "spoon", "imperial", "bar", "tablespoon"}:
            return None
        told = stems & {"answer", "reply", "everything", "unit", "measure", "always", "now"}
        if "metric" in stems or (stems & {"gram", "millilitre", "milliliter", "ml"} and stems & {"answer", "reply"}):
            return Setting({"system": "metric"}, "answers are in grams and millilitres")
        if told and stems & {"ounce", "oz"} and not stems & {"us", "american"}:
            return Setting({"system": "us"}, "answers are in ounces")
        return None

    def _comma(self, words: list[str]) -> Setting | None:
        text = " ".join(words)
        if (
            ("decimal comma" in text or "comma is the decimal" in text or "decimal commas" in text)
            and len(words) < 9
            and not any(w[0].isdigit() for w in words)
        ):
            return Setting({"comma": True}, "a comma is a decimal point")
        return None


def _lasts(clause: str) -> bool:
    """Does a clause say no more than that a setting lasts?"""
    return not clause.rstrip().endswith("?") and FOR_GOOD.fullmatch(clause) is not None


def _echoes(clause: str, said: list[tuple[Size, bool]]) -> bool:
    """``24 drops in a ml. 24.``: is a clause only the number of a size that was said, once more?"""
    words = [t.text for t in tokens_of(clause) if t.kind != "mark"]
    return len(words) == 1 and any(words[0] == size.said.split()[0] for size, _ in said)


def _to_the_ounce(tokens: list[Token], q: Quantity) -> bool:
    """``30 ml to the ounce``, ``30 ml an oz``: is it an ounce that is so large?"""
    words = [t.stem for t in tokens[q.last + 1 : q.last + 4]]
    said = words[:1] in (["to"], ["per"], ["a"], ["an"], ["each"]) and not {"ounce", "oz"}.isdisjoint(words[1:])
    return said or (q.per is not None and "ounce" in q.per[0])


def _changed(before: Mapping[str, Any], after: Mapping[str, Any]) -> set[str]:
    return {k for k in {*before, *after} if before.get(k) != after.get(k)}


def sizes_of(settings: Mapping[str, Any]) -> dict[str, float]:
    """The chat's own sizes of measures, on the base units."""
    return {k[5:]: float(v) for k, v in settings.items() if k.startswith("size:")}


def system_of(settings: Mapping[str, Any]) -> dict[str, str]:
    """Which unit stands for which in this chat (ounces, cups)."""
    swaps: dict[str, str] = {}
    swaps.update(
        IMPERIAL if settings.get("ounce") == "imperial" else BAR_OUNCE if settings.get("ounce") == "bar" else {}
    )
    swaps.update(METRIC_CUPS if settings.get("cups") == "metric" else {})
    if settings.get("system"):
        swaps[ANSWERS] = str(settings["system"])
    return swaps
