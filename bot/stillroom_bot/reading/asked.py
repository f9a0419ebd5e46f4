"""What is asked for: the words and units in the part of the message that holds the question."""

from __future__ import annotations

from .asked_spans import LINKS, OPENING_WHAT, TOLD_OF, AskedSpans
from .clauses import Asked
from .lexicon import stop_words
from .part_of import part_of_that

STOP_ZONE = frozenset(
    """is are was were do does did should would will can could must may might shall have has had go goes went
to for in into from with makes make making made need needs i we you they he she it
will'll per when if that which gets get got
comes come came fit fits give gives per by at on as fills fill contain contains hold holds carry
carries bring brings take
takes equal equals needed required please left over remain remaining""".split()
)
LIGHT_VERBS = frozenset(
    """is are to the of do does i we need should you make it would will can must go goes have get take come fit
    give add""".split()
)
"""Words of ``STOP_ZONE`` that do not end a zone before it names anything."""
NOUNS_TOO, BEFORE_NOUNS = frozenset({"fills", "makes"}), frozenset("many full whole complete".split())
"""``how many full fills``: what is elsewhere a verb."""
WHOLE = frozenset("whole full complete".split())
HOW = {
    "much": "much",
    "many": "many",
    "long": "time",
    "strong": "strength",
    "cold": "temperature",
    "hot": "temperature",
    "big": "size",
    "large": "size",
    "old": "time",
    "sweet": "sweet",
    "sour": "sour",
    "soon": "time",
    "far": "much",
    "thick": "much",
    "wide": "much",
    "heavy": "weight",
}
ORDERS = frozenset(
    """give tell calculate calc compute find state express report show convert work say name determine figure
wondering wonder ask know""".split()
)
ASIDE, VERBS = frozenset("does do did will would".split()), frozenset("cost weigh hold contain measure".split())
QUESTIONS = frozenset("what what's whats how".split())
AFTER_ORDERS = frozenset("me us the out my our it to how what a an for about exact just please".split())
DOUBTING = frozenset("will would does do did is are can could".split())
CLOSING = frozenset(
    """best kind kindest warm warmest many wishes regards thanks thank you yours faithfully sincerely truly cheers
and in advance greetings cordially respectfully with very so much a lot number figure nothing else only""".split()
)
INCLUDED = frozenset("incl including included excl excluding excluded counted".split())
"""What a clause begins or ends with that says of a number before it what counts as well."""
CONDITIONS = frozenset("when if while once provided assuming".split())
WITHOUT = CONDITIONS | {"no", "nothing", "without", "excluding"}
"""What a clause begins with that says how something is taken to be, beside what is asked (``no loss``)."""
USUAL = frozenset("usual normal standard default ordinary".split())
AS_USUAL = USUAL | frozenset("the our a as in at by with ratio way proportion dose strength rate per".split())
MAY, SPEAKERS = frozenset("can could do may should".split()), frozenset("i we you they".split())
POINTING = frozenset("it this that them these there".split())
MEASURES = frozenset("number amount weight mass volume quantity strength ratio proportion dose".split())


class Asking(AskedSpans):
    """Finds what a message asks."""

    def find(self) -> Asked:
        """Zones and units of the question."""
        self._question_words()
        self.forms()
        self._measures()
        self._orders()
        self._chunks()
        self._yes_or_no()
        self.units_asked()
        self._pass_by(any(self.passing is not None and a > self.passing[1] for a, _ in self.asked.unit_spans))
        self.turned_into()
        self.opening()
        self.ending()
        self._predicates()
        return self.asked

    def _zone(self, start: int, stop: frozenset[str] = STOP_ZONE, most: int = 9) -> tuple[int, int] | None:
        i, content = start, False
        while i < len(self.t) and i - start < most:
            word = self._word(i)
            if self._ends(i) or i in self.taken or (content and word in QUESTIONS):
                break
            if word in NOUNS_TOO and self._word(i - 1) in BEFORE_NOUNS:
                content, i = True, i + 1
                continue
            if word in stop and content:
                if word == "in" and self.t[i - 1].stem == "weigh":
                    i += 1
                    continue
                if word in ("is", "are") and self._word(i + 1) == "left":
                    i += 2
                    continue
                if word == "to" and any(self._word(k) == "ratio" for k in range(start, i + 4)):
                    i += 1
                    continue
                break
            if word in stop and word not in LIGHT_VERBS:
                break
            content = (
                content or (self.t[i].kind == "word" and word not in stop_words()) or self._unit_span(i) is not None
            )
            i += 1
        sized = i in self.taken and self._word(i - 1) == "of" and self._word(start - 1) == "many" and i - 2 >= start
        return (start, i - 1 - sized) if content else None

    def _question_words(self) -> None:
        for i, t in enumerate(self.t):
            if t.text == "how" and (how := HOW.get(self._word(i + 1).removesuffix("'s"))) is not None:
                self.asked.how.add("time" if self._word(i + 2) == "time" else how)
                self._subject(i)
                self._topic(i)
                if self._word(i + 1) == "many" and (i + 2 >= len(self.t) or self._ends(i + 2) or self._of_them(i + 2)):
                    self.asked.how.add("pieces")
                elif self._word(i + 1) == "many" and self._word(i + 2) in WHOLE and self._word(i + 3) == "ones":
                    self.asked.how.add("pieces")
                    self._add(i + 2)
                elif not (self._word(i + 2) in ASIDE and self._verb(i + 3)):
                    self._add(i + 2)
            elif t.text == "what" and self._word(i + 1) in ("i'm", "we're") and self._word(i + 2) == "after":
                self._sought(i)
            elif t.text == "which" and self._relative(i):
                continue
            elif t.text in ("what", "which", "what's", "whats", "wich", "wat"):
                self._subject(i)
                j = i + 1
                while self._word(j) in OPENING_WHAT or self._one_thing(j):
                    j += 1
                if self._word(j) in ASIDE and self._verb(j + 1):
                    continue
                if self._word(j) in MEASURES:
                    self._topic(i)
                    j += 2 * (self._word(j + 1) in ("has", "have"))
                if self._word(j) not in ("if", "about"):
                    self._add(j)
            elif t.text == "qty":
                self.asked.how |= {"many", "pieces"}
            elif t.text in ("much", "many") and self._word(i - 1) not in (
                "how",
                "as",
                "so",
                "too",
                "that",
                "very",
                "not",
            ) and self._word(i + 1) not in ("thanks", "greetings", "regards"):
                self.asked.how.add(HOW[t.text])
                self._add(i + 1)

    def _of_them(self, i: int) -> bool:
        """``how many can I make``, ``how many is that``: is it left unsaid of what, before token ``i``?"""
        said = self._word(i + 1)
        if self._word(i) in MAY:
            return said in SPEAKERS
        ends = i + 2 >= len(self.t) or self._ends(i + 2)
        return ends and self._word(i) in ("is", "are") and said in POINTING

    def _relative(self, i: int) -> bool:
        """``honey, which my meter puts at 81 brix``: is more said of a thing, where something else is asked?"""
        asked = (t.text for k, t in enumerate(self.t) if k != i)
        return self._word(i - 1) == "," and any(word in QUESTIONS or word in ("much", "many") for word in asked)

    def _verb(self, i: int) -> bool:
        """``what does 4 cl cost me?``, ``what did the 70 cl bottle cost?``: the verb, and what it is said of."""
        for k in range(i, min(i + 9, len(self.t))):
            if self._ends(k):
                return False
            of_a_size = self._word(k) == "measure" and k - 1 in self.taken
            if self._word(k) in VERBS and not of_a_size and (numbers := [n for n in range(i, k) if n in self.taken]):
                self.asked.zones.append((numbers[-1] + 1, k))
                return True
        return False

    def _sought(self, i: int) -> None:
        """``sugar's what I'm after``, ``the water is what we're after``: what is spoken of before the ``what``."""
        if self._word(i - 1).endswith("'s"):
            self.asked.zones.append((i - 1, i - 1))
        else:
            self._subject(i)

    def _subject(self, i: int) -> None:
        """``the water is how many grams``: what is spoken of before the question word at token ``i``."""
        last = i - 1
        if self._word(last) not in ("is", "are", "makes", "=", "equals", "weighs", "holds", "takes", "then", "be"):
            return
        last -= 1
        first = last
        while (
            first >= 0
            and self.t[first].kind == "word"
            and first not in self.taken
            and last - first < 4
            and self._word(first) not in LINKS
        ):
            first -= 1
        owned = first in self.taken or (self._word(first) == "of" and first - 1 in self.taken)
        if first < last and not owned and self._contentful((first + 1, last)):
            self.asked.zones.append((first + 1, last))

    def _topic(self, i: int) -> None:
        """``And the water, how many grams is it?``: what a few words before the question put first."""
        if self._word(i - 1) not in (",", "-", ":"):
            return
        first = i - 1
        while first > 0 and self.t[first - 1].kind == "word" and first - 1 not in self.taken and i - first < 4:
            first -= 1
        if first < i - 1 and (first == 0 or self._ends(first - 1)) and self._contentful((first, i - 2)):
            self.asked.zones.append((first, i - 2))

    def _measures(self) -> None:
        """``number of drops of``, ``weight of salt``: a measure that is named and not given."""
        for i, t in enumerate(self.t):
            if (
                t.stem in MEASURES
                and self._word(i + 1) == "of"
                and (
                    i == 0
                    or self._ends(i - 1)
                    or self._word(i - 1) in ("the", "what", "which", "total", "final", "whole")
                )
            ):
                zone = self._zone(i - (self._word(i - 1) in ("total", "final", "whole"))) or self._of_a_size(i + 2)
                if zone is not None and not self._overlaps(zone):
                    self.asked.zones.append(zone)
                    self.asked.how |= {"many"} if t.stem == "number" else set()

    def _part_named(self, i: int) -> int:
        """``how much of the acid in 2 l of juice is citric?``: where the part stands, last of its clause, that is asked
        of what the question begins with; 0 where there is none."""
        while i < len(self.t) and not self._ends(i):
            i += 1
        named = self._word(i - 2) in ("is", "are") and i - 1 not in self.taken and self._contentful((i - 1, i - 1))
        return i - 1 if named else 0

    def _add(self, start: int) -> None:
        zone = self._zone(start) or self._of_a_size(start)
        if zone is None and self._word(start) == "total" and not self.asked.zones:
            zone = (start, start)
        if zone is None:
            self._with_its_strength(start)
            rest = (start, min(start + 8, len(self.t) - 1))
            if rest[0] <= rest[1]:
                self.asked.rest.append(rest)
            return
        self.asked.zones.append(zone)
        self._with_its_strength(zone[1] + 1)
        end = zone[1] + 1
        if (part := part_of_that(self.t, start)) is not None:
            self._add(part)
        elif self._word(start) == "of" and (named := self._part_named(end)):
            self.asked.rest.append(self.asked.zones.pop())
            self.asked.zones.append((named, named))
        tail = end
        while tail < len(self.t) and self._word(tail) not in (".", "?", ";", "\n", "!") and tail - end < 9:
            tail += 1
        if tail > end:
            self.asked.rest.append((end, tail - 1))

    def _of_a_size(self, start: int) -> tuple[int, int] | None:
        """``how many 8 g cartridges``: what is asked for stands after the size of one of them."""
        size = next((q for q in self.quantities if q.first == start and q.units and not q.strength), None)
        counted = self._word(start - 1) == "many" or self._word(start - 2) == "number"
        zone = self._zone(size.last + 1) if size is not None and counted else None
        if zone is not None:
            self.asked.shared.append(zone)
        return zone

    def _orders(self) -> None:
        for i, t in enumerate(self.t):
            if t.text in ORDERS and i + 1 < len(self.t) and self._word(i - 2) != "before":
                j = i + 1
                while self._word(j) in AFTER_ORDERS:
                    j += 1
                if (zone := self._zone(j)) is not None and not self._overlaps(zone):
                    self.asked.zones.append(zone)

    def _chunks(self) -> None:
        """A clause without a number that ends in ``?``, ``=`` or ``:``, or that ends the message: ``Milk?``"""
        start = 0
        n = len(self.t)
        while n and self.t[n - 1].kind in ("mark", "line") and self._word(n - 1) not in ("?", "=", ":", ")"):
            n -= 1
        before: tuple[int, int] | None = None
        passing: tuple[int, int] | None = None
        for i in range(n + 1):
            word = self._mark(i) if i < n else "\n"
            if i < n and not self._ends(i) and word != ":":
                continue
            chunk = (start, i - 1)
            start = i + 1
            if chunk[0] > chunk[1]:
                continue
            if {self._word(k) for k in range(chunk[0], chunk[1] + 1)} <= CLOSING:
                continue
            if self._as_usual(chunk) and any(q.last < chunk[0] for q in self.quantities):
                before = None
                continue
            if word != "?" and INCLUDED & {self._word(chunk[0]), self._word(chunk[1])}:
                continue
            numbered = any(k in self.taken for k in range(chunk[0], chunk[1] + 1))
            closing = word == "?" or (word == "=" and i + 1 not in self.taken) or i == n
            blank = word in (":", "=") and (self._word(i + 1) in ("?", "_", "|", "…") or i + 1 >= n)
            if not numbered and (closing or blank) and chunk[1] - chunk[0] <= 9 and not self._overlaps(chunk):
                if passing is not None and before is not None and before[0] <= passing[0]:
                    passing = None
                sure = (z for z in self.asked.zones if z != passing)
                told = bool(self.asked.how) and any(t.text == "?" for t in self.t[: chunk[0]])
                if self.asked.how and self._word(chunk[0]) in WITHOUT:
                    self.asked.rest.append(chunk)
                    before = chunk
                    continue
                if i == n and word not in ("?", "=") and (told or any(self._contentful(z) for z in sure)):
                    self.asked.rest.append(chunk)
                    before = chunk
                    continue
                self.asked.zones.append(chunk)
                if before is not None and (
                    not self._contentful(chunk) or self._word(before[1] + 1) in (",", "|", "and")
                ):
                    tail = self._tail(before)
                    owned = tail[0] - 1 in self.taken and (tail[1] - tail[0] < 2 or self._strong(tail[0] - 1))
                    if (
                        not owned
                        and not (tail[0] - 1 in self.taken and tail[1] in self.taken)
                        and self._word(tail[0]) not in TOLD_OF
                        and self._contentful(tail)
                        and not self._overlaps(tail)
                    ):
                        self.asked.zones.append(tail)
                        if tail[0] - 1 in self.taken:
                            self.asked.shared.append(tail)
                    elif tail[1] in self.taken and (label := self._measured(before)) is not None:
                        self.asked.zones.append(label)
            elif numbered and (closing or (before is None and not self.asked.zones)) and not blank:
                named = self._main_clause(chunk, before) or self._after_so(chunk) if closing else None
                head = named or (self._head(chunk) if closing or not self._told(chunk) else None)
                if head is not None and not self._overlaps(head):
                    self.asked.zones.append(head)
                    self._with_its_strength(head[1] + 1)
                    passing = None if closing else head
                if word == "?" and (last := self._last_word(chunk)) is not None:
                    self.asked.rest.append(last)
                if head is None and before is None and (label := self._leading(chunk)) is not None:
                    self.asked.rest.append(label)
            before = chunk
        self.passing = passing
        self._pass_by(any(z != passing and self._contentful(z) for z in self.asked.zones))

    def _strong(self, i: int) -> bool:
        """``of 4 % lactic acid solution, grams?``: does a strength end at token ``i``, which tells of what follows?"""
        return self._word(i + 1) not in stop_words() and any(q.last == i and q.strength for q in self.quantities)

    def _as_usual(self, chunk: tuple[int, int]) -> bool:
        """``usual ratio?``, ``the normal way``: that what is not said is to be as it always is, and no question."""
        words = [self._word(k) for k in range(chunk[0], chunk[1] + 1)]
        return len(words) <= 4 and not USUAL.isdisjoint(words) and AS_USUAL.issuperset(words)

    def _main_clause(self, chunk: tuple[int, int], before: tuple[int, int] | None) -> tuple[int, int] | None:
        """``And the pour cost, when I sell it for 9?``: what is asked stands before the condition."""
        if before is None or self._word(chunk[0]) not in CONDITIONS or self._word(before[1] + 1) != ",":
            return None
        numbered = any(k in self.taken for k in range(before[0], before[1] + 1))
        return before if not numbered and self._contentful(before) else None

    def _after_so(self, chunk: tuple[int, int]) -> tuple[int, int] | None:
        """``sells for 5 net so pour cost?``: what comes after the last number, and after ``so``."""
        last = max(k for k in range(chunk[0], chunk[1] + 1) if k in self.taken)
        so = next((k for k in range(last + 1, chunk[1]) if self._word(k) == "so"), None)
        named = so is not None and any(self._unit_span(k) for k in range(so + 1, chunk[1]))
        return (so + 1, chunk[1]) if so is not None and (named or self._contentful((so + 1, chunk[1]))) else None

    def _yes_or_no(self) -> None:
        """``will a 25 % batch freeze?``, ``does it curdle at pH 4?``: what is doubted may be anywhere in the clause."""
        if self.asked.zones or self._word(0) not in DOUBTING:
            return
        end = next((i for i in range(1, len(self.t)) if self._word(i) in (".", "?", ";", "\n", "!")), len(self.t))
        self.asked.rest.append((1, end - 1))

