"""What is asked of a kept spec, put as the reader takes it: a table of ways to say it, the name left out.

In the patterns and in what comes of them, ``@`` stands where the name stood.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

NUMBER = (r"(?:\d+(?:[.,]\d+)?|(?:a |one |two |three |four |five )?(?:hundred|dozen)|half a dozen|a couple|"
          r"(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)"
          r"(?:[ -](?:one|two|three|four|five|six|seven|eight|nine))?|"
          r"one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|"
          r"eighteen|nineteen)")
SIZE = r"(?:(?:\d+(?:[.,]\d+)?(?:\s+\d/\d)?|[½¼¾]|half an?|an?|one|two|three|four|five|ten)\s*" \
       r"(?:ml|millilit(?:er|re)s?|cl|centilit(?:er|re)s?|dl|l|lit(?:er|re)s?|oz|" \
       r"fl oz|ounces?|pints?|quarts?|gallons?|g|grams?|kg|kilos?)\b)"
PEOPLE = r"(?:serves|servings|people|persons|guests|drinks|portions|covers|heads|glasses|of them|of those|of us)"
VERB = (r"(?:(?:please|can you|could you|i need|i want|we need|need|i'd like|how do i|how do we|how to|to|let's|make|"
        r"batch|scale|prep|prepare|build|mix|give|me|us|up|for|hey|hi|ok|okay|right|so|and|also|then|now|quick one|"
        r"another|a round of|shit|damn|oh)\b[\s,!:]*)*")
POLITE = re.compile(
    r"(?<![\s,])(?:[\s,]+(?:please|pls|plz|too|as well|also|thanks|again|mate|in all|in total))+$", re.I)
BATCHES = r"(?:half an?|1/2|½|one and a half|1 1/2|double|triple|quadruple|NUMBER)".replace("NUMBER", NUMBER)
TIMES = {"half": 0.5, "half of": 0.5, "half a": 0.5, "half an": 0.5,
         "1/2": 0.5, "½": 0.5, "one and a half": 1.5, "1 1/2": 1.5, "double": 2.0, "triple": 3.0, "quadruple": 4.0}
"""Numbers of batches that are said as no number is."""
IT = r"(?:of\s+|x\s*|×\s*|times\s+)?(?:the\s+|our\s+|that\s+|my\s+)?"
PRICE = r"(?:[$€£]\s*)?\d+(?:[.,]\d{1,2})?(?:\s*(?:[$€£]|dollars?|euros?|pounds?|usd|eur|gbp))?(?![\w%]|\s*%)"
TELL = r"(?:(?:what(?:'s| is| are)?|the|tell me|give me|work out|total|and|so|please)\s+)*"
US = r"(?: (?:us|me|to make))?"
ASKS_WHAT = r"what (?:(?:does|do|will|would)|goes in(?:to)?|is in|(?:do|should) (?:i|we) need (?:for|to make))\s+"
NEEDS = r"(?:\s+(?:need|take|want|come to|consist of))?"
SIPHON = re.compile(
    r"(?<!\s)\s*\b(?:in|into|from|with)\s+((?:(?:a|an|the|our|my|one|two)\s+)?(?:[\w.½]+\s+){0,3}siphons?)\b", re.I)


class Patterns:
    """Patterns and what each stands for, compiled when they are first looked at: most messages name no spec."""

    def __init__(self, rows: tuple[tuple[str, str], ...]):
        self._rows = rows

    @cached_property
    def _compiled(self) -> list[tuple[re.Pattern[str], str]]:
        return [(re.compile(pattern, re.I), to) for pattern, to in self._rows]

    def __iter__(self) -> Iterator[tuple[re.Pattern[str], str]]:
        return iter(self._compiled)


@dataclass(frozen=True, slots=True)
class Asked:
    """The question with ``@`` for the drink; ``total`` if it is made to a volume or weight; ``serves`` if counted.

    ``made`` is the amount (``40``, ``2 litres``) that the lines are brought to before they are asked about,
    ``batches`` how many times the whole spec is made.
    """

    text: str
    total: str = ""
    serves: str = ""
    siphon: str = ""
    made: str = ""
    batches: str = ""

    @property
    def plain(self) -> bool:
        """Is so much of it all that is asked?"""
        return self.text.startswith("scale to ")


WAYS = Patterns((
    (rf"^{VERB}(?P<n>{BATCHES})\s*(?:x\s*)?batch(?:es)?\s+(?:of\s+)?{IT}@$", "batches"),
    (rf"^{VERB}{IT}@\s*,?\s*(?P<n>{BATCHES})\s*(?:x\s*)?batch(?:es)?$", "batches"),
    (rf"^{VERB}(?P<n>double|triple|quadruple|half(?: of)?)\s+{IT}@$", "batches"),
    (rf"^{VERB}(?P<n>{NUMBER})(?:\s+|\s*[x×]\s*){IT}@$", "count"),
    (rf"^{VERB}{IT}@\s*(?:,|:|-)?\s*(?:for|x|×|times)\s*(?P<n>{NUMBER})(?:\s+{PEOPLE})?$", "count"),
    (rf"^{VERB}(?P<n>{NUMBER})\s+{PEOPLE}\s+{IT}@$", "count"),
    (rf"^{VERB}{IT}@\s+(?:up\s+|down\s+)?(?:to|for)\s+(?P<n>{NUMBER})(?:\s+{PEOPLE})?$", "count"),
    (rf"^{VERB}{IT}@\s*(?:,|:|-)?\s*(?:for|to|up to|at|makes?|into)?\s*(?:a\s+(?:total|batch)\s+of\s+)?"
     rf"(?P<v>{SIZE})$", "size"),
    (rf"^{VERB}(?:a\s+(?:total|batch)\s+of\s+)?(?P<v>{SIZE})\s+{IT}@$", "size"),
    (rf"^{ASKS_WHAT}(?P<v>{SIZE})\s+{IT}@{NEEDS}$", "size"),
    (rf"^{ASKS_WHAT}(?P<n>{NUMBER})\s+{IT}@{NEEDS}$", "count"),
))
SO_MUCH = rf"(?:(?P<v>{SIZE})|(?P<n>{NUMBER})(?:\s+{PEOPLE})?)"
COST, STRENGTH = "cost of the drink", "strength of the drink"
OF_SO_MUCH = Patterns((
    (rf"^{TELL}costs? (?:of|for) {SO_MUCH}\s+{IT}@$", COST),
    (rf"^{TELL}costs? (?:of|for) {IT}@\s*[,:]?\s*(?:for|x|×)\s*{SO_MUCH}$", COST),
    (rf"^(?:what|how much) (?:do|does|would|will) {SO_MUCH}\s+{IT}@ cost{US}$", COST),
    (rf"^how much (?:is|are) {SO_MUCH}\s+{IT}@$", COST),
    (rf"^(?:what|how much) (?:do|does|would|will) {IT}@ cost{US} (?:for|x|×)\s*{SO_MUCH}$", COST),
    (rf"^{TELL}(?:strength|abv|proof) (?:of|in|for) {SO_MUCH}\s+{IT}@$", STRENGTH),
    (rf"^{TELL}(?:strength|abv|proof) (?:of|in|for) {IT}@\s*[,:]?\s*(?:for|at|x|×)\s*{SO_MUCH}$", STRENGTH),
    (rf"^how strong (?:is|are|would|will) {SO_MUCH}\s+{IT}@(?: be)?$", STRENGTH),
    (rf"^how strong (?:is|are|would|will) {IT}@(?: be)? (?:for|at|x|×)\s*{SO_MUCH}$", STRENGTH),
))
"""What so much of a drink costs, for which its lines are multiplied; how strong so much is: as strong as any of it."""
POUR_COST = r"price \g<p>, what is the pour cost"
TAXED_COST = r"menu price \g<p> including \g<t> % VAT, what is the pour cost"
TAX = r"\s*,?\s*(?:including|incl\.?|inclusive of|with)\s+(?P<t>\d+(?:[.,]\d+)?)\s*%\s*(?:vat|tax|gst|sales tax)"
WITHIN = Patterns((
    (rf"\bpour cost (?:of|for|on) (?:the |our )?@ (?:at|for|sold at|selling for) (?P<p>{PRICE}){TAX}", TAXED_COST),
    (rf"\bpour cost (?:of|for|on) (?:the |our )?@ (?:at|for|sold at|selling for) (?P<p>{PRICE})", POUR_COST),
    (rf"(?:the |our )?@ (?:sells|goes|is sold|is priced|is on the menu|is) (?:for|at) (?P<p>{PRICE})[\s,;:]*"
     r"(?:and )?(?:what(?:'s| is| does)? )?(?:the |our |its )?pour cost", POUR_COST),
    (r"\bhow many (?:of )?(?:the |our )?@(?: (?:can|do|could) (?:i|we) (?:make|get|do))?", "how many serves"),
    (rf"\b(?P<n>{NUMBER})\s+{IT}@", r"\g<n> serves"),
    (rf"@\s+(?:for|to|x|×)\s+(?P<n>{NUMBER})(?:\s+{PEOPLE})?(?=$|[?,.:])", r"\g<n> serves"),
    (rf"@\s+(?:for|to)\s+(?P<n>{NUMBER})\s+{PEOPLE}", r"\g<n> serves"),
    (r"\bhow (?:sweet|sugary) (?:is|are|does) (?:the |our )?@(?: (?:come out|taste|get))?",
     "how much sugar and acid in the drink"),
    (r"\bhow (?:sour|acid|acidic|sharp|tart) (?:is|are) (?:the |our )?@", "how much sugar and acid in the drink"),
    (r"\b(?:how much )?(?:sugar and acid|acid and sugar|sugar|sweetness|acidity|acid|balance)(?: is| are)?(?: there)? "
     r"(?:of|in) (?:the |our |a |an )?@",
     "how much sugar and acid in the drink"),
    (r"\bhow strong (?:is|are) (?:the |our |a |an )?@", "strength of the drink"),
    (r"\bwhat does (?:the |our |a |an )?@ cost\b(?: (?:us|me|to make))?", "cost of the drink"),
    (r"\bhow much (?:does|is) (?:the |our |a |an )?@(?: cost)?(?: (?:us|me|to make))?$", "cost of the drink"),
))
OF_LINE = re.compile(
    rf"^(?:{VERB})(?:how (?:much|many)|what amount of)\s+(?P<thing>[^@\d]{{2,40}}?)\s+"
    rf"(?:(?:do|does|should|must|will) (?:i|we) (?:need|use|take|want)\s+|is\s+|are\s+|goes?\s+)*"
    rf"(?:for|in|into|to make|to)\s+(?P<rest>(?:{SIZE}|{NUMBER}(?:\s+{PEOPLE})?)\s+{IT}@)$", re.I)
"""How much of one line goes into so much of it."""
VERDICTS = re.compile(
    r"^(?:what(?:'s| is| are)?(?! (?:do|does|would|will)\b)|the|tell me|and|so|please|give me|work out)\s+", re.I)


def asked(text: str, start: int, end: int) -> Asked:
    """What a text asks of the spec whose name stands at ``start`` to ``end``."""
    whole = " ".join(f"{text[:start]}@{text[end:]}".split()).strip(" ?.!")
    siphon = SIPHON.search(whole)
    if siphon:
        whole = (whole[:siphon.start()] + whole[siphon.end():]).strip(" ?.!,")
    held = siphon[1] if siphon else ""
    whole = POLITE.sub("", whole)
    if held and re.fullmatch(rf"{VERB}{IT}@", whole, re.I):
        return Asked("scale to 1 serves", serves="1", siphon=held)
    for pattern, kind in WAYS:
        found = pattern.match(whole)
        if found and kind == "batches":
            return Asked(f"scale to {found['n']} serves", serves=found["n"], siphon=held, batches=found["n"])
        if found and kind == "count":
            return Asked(f"scale to {found['n']} serves", serves=found["n"], siphon=held)
        if found:
            return Asked(f"scale to a total of {found['v']}", total=found["v"], siphon=held)
    for pattern, to in OF_SO_MUCH:
        found = pattern.match(whole)
        if found:
            return Asked(to, siphon=held, made=(found["v"] or found["n"]) if to == COST else "")
    plain = VERDICTS.sub("", whole)
    for pattern, to in WITHIN:
        plain, count = pattern.subn(to, plain, 1)
        if count:
            break
    size = re.search(rf"@\s+(?:for|to|at)\s+(?P<v>{SIZE})|\b(?P<w>{SIZE})\s+of\s+(?:the\s+)?@", plain)
    if size:
        total = size["v"] or size["w"]
        return Asked(plain.replace(size.group(), f"a total of {total}"), total=total, siphon=held)
    return Asked(re.sub(r"\b(?:the |our |a |an |my )?@", "the drink", plain), siphon=held)
