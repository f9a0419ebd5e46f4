"""The stages of a check, in order: loading, each calculator by the kit, its examples, other people's examples, times.

Each is a generator of findings; ``doing`` is told before whatever might not come back.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from statistics import median

from stillroom import Kernel
from stillroom.limiting import TookTooLong, limited
from stillroom.sources import Source
from stillroom.testing import Case, Report, assert_case, check, examples, solve_directions
from stillroom.testing.hazards import cautions, unsaid

from ..conversation import Conversation
from ..places import cache_dir
from .finding import Finding, advice
from .sentences import sentences
from .target import everywhere

Doing = Callable[[str], None]
SLOW_LOAD, SLOW_ANSWER = 0.3, 0.1
LONGEST_ELSEWHERE = 5.0
MOST_TOLD = 5
OWN_WORDS = ("Words of its own: words='...' for the topic, only='...' for what must be said. Where two "
             "remain that could answer, an operator decides by [prefer] in stillroom.toml.")
PLACEHOLDER = "Say here what can hurt"


class Checked:
    """One plugin under check: alone in a kernel, and among everything else that is installed."""

    def __init__(self, source: Source, doing: Doing) -> None:
        self.source, self.doing = source, doing
        self.name = source.name
        doing("loading it")
        self.alone = Kernel(discover=False)
        self.plugin = self.alone.load(source)
        self.reports: dict[str, Report] = {}
        self.times: list[float] = []
        self.failed: set[str] = set()
        self.warned: dict[str, set[str]] = {}

    def stages(self) -> Iterator[Finding]:
        """Everything that can be found; after a failure to load, nothing more."""
        yield from self.loading()
        for id in list(self.alone.models):
            yield from self.calculator(id)
        if self.alone.models:
            yield from self.own_examples()
            yield from self.missing_cautions()
        yield from self.among_others()
        yield from self.late_errors()

    def loading(self) -> Iterator[Finding]:
        """What the kernel says of it, and what loading costs."""
        self.seen = list(self.plugin.errors)
        for text in self.plugin.errors:
            yield Finding("error", self.name, text, advice(text))
        for text in self.plugin.notes:
            yield Finding("warning", self.name, text, "It works today; change it before the version that is named.")
        if self.plugin.seconds > SLOW_LOAD:
            yield Finding("warning", self.name, f"every start waits {self.plugin.seconds * 1000:.0f} ms for it to load",
                          "Import what is heavy inside the function that needs it.")

    def calculator(self, id: str) -> Iterator[Finding]:
        """One calculator by the kit."""
        self.doing(f"solving {id} in every direction")
        report = self.reports[id] = check(self.alone, id)
        for problem in report.problems:
            yield Finding("error", id, _said(problem.kind, problem.text), advice(problem.text))
        for text in report.told[:MOST_TOLD]:
            yield Finding("note", id, f"no single answer for {text}",
                          "Fine where the trade knows it so; else narrow bounds or usual.")
        yield from self.directions(id)

    def directions(self, id: str) -> Iterator[Finding]:
        """Variables that nothing else determines."""
        model = self.alone.model(id)
        rows = {n: k.default or next(iter(k.rows)) for n, k in model.choices.items() if k.rows}
        found = {d.hidden for d in solve_directions(self.alone, id, rows, 1)}
        results = {s.name for s in model.calculator.steps}
        filled = {v for k in model.choices.values() for v in k.fills}
        summed = {*(model.calculator.lines.sums if model.calculator.lines else ())}
        for name, v in model.variables.items():
            if v.hidden or name in found | results | summed:
                continue
            used = any(name in names for names in model.names)
            text = f"{name} can never be asked for: no set of the others determines it"
            if not used and name not in filled:
                yield Finding("error", id, f"{name} stands in no equation", "Use it or leave it out.")
            elif not model.calculator.lines:
                yield Finding("warning", id, text, "If it should be, an equation is missing; else say hidden=True.")

    def own_examples(self) -> Iterator[Finding]:
        """Its examples, asked in plain words of a bot that has nothing else."""
        talk = Conversation(self.alone)
        for case in examples(self.alone, self.name):
            self.doing(f"asking {case.question!r}")
            for n in range(4):
                started = time.perf_counter()
                reply = talk.answer(case.question)[0]
                if n or not self.times:
                    self.times.append(time.perf_counter() - started)
            answer = reply.to_json()
            self.warned.setdefault(case.place.partition(",")[0], set()).update(answer["cautions"])
            if text := wrong(case, self.alone, answer):
                self.failed.add(case.question)
                yield Finding("error", case.place.partition(",")[0], f"its example {case.question!r} fails: {text}",
                              "Mend the example, or teach its words; `stillroom ask --why` shows how it is read.")
        if self.times and median(self.times[1:] or self.times) > SLOW_ANSWER:
            yield Finding("warning", self.name, f"an answer takes {median(self.times) * 1000:.0f} ms",
                          "Look at its Functions: each is called many times where a value is searched.")

    def missing_cautions(self) -> Iterator[Finding]:
        """Subjects that nothing in a declaration, nor in the answers to its examples, warns of."""
        for id, model in self.alone.models.items():
            told = self.warned.get(id, set())
            for about, usual in unsaid(model.calculator, self.alone.substances.values(), told):
                grave = "allergen" in usual or not any(cautions(model.calculator))
                yield Finding("warning" if grave else "note", id, f"it is about {about}, and no caution speaks of that",
                              f"cautions=[...] or limit(..., 'caution', reason); usual there: {usual}.")
            if any(text.startswith(PLACEHOLDER) for text in model.calculator.cautions):
                yield Finding("note", id, "its caution is still the one that `stillroom plugin new` wrote",
                              "Say what can hurt somebody, or take it out.")

    def among_others(self) -> Iterator[Finding]:
        """The same with everything that is installed, and everybody else's examples with and without it."""
        if self.seen and not self.alone.models:
            return
        self.doing("loading everything that is installed")
        before, after = (Kernel(cache_dir(), discover=False) for _ in range(2))
        for source in everywhere():
            if source.name != self.name:
                before.load(source)
                after.load(source)
        plugin = after.load(self.source)
        for text in plugin.errors:
            if text not in self.seen:
                self.seen.append(text)
                yield Finding("error", self.name, text, advice(text))
        if plugin.accepted:
            yield from self.crowd(before, Conversation(after))

    def crowd(self, before: Kernel, among: Conversation) -> Iterator[Finding]:
        """Sentences that are read otherwise when all are there."""
        for case in examples(among.kernel, self.name):
            self.doing(f"asking {case.question!r} among all calculators")
            reply = among.answer(case.question)[0]
            if case.question not in self.failed and (text := wrong(case, among.kernel, reply.to_json())):
                elsewhere = (reply.calculator or "").partition(".")[0] not in ("", self.name)
                taken = f" ({reply.calculator} takes it)" if elsewhere else ""
                yield Finding("error", case.place.partition(",")[0],
                              f"among all that is installed, its example {case.question!r} fails{taken}: {text}",
                              OWN_WORDS)
        yield from self.plain_sentences(among)
        without: Conversation | None = None
        for case in examples(before):
            shared = self.shared(case.question, among)
            if not shared and not any(m.calculator.lines and not m.calculator.only for m in self.alone.models.values()):
                continue
            without = without or Conversation(before)
            self.doing(f"asking {case.question!r} with and without it")
            try:
                with limited(LONGEST_ELSEWHERE):
                    one, other = (talk.answer(case.question)[0] for talk in (without, among))
            except TookTooLong:  # it may be the other calculator that does not end: that is for its own check
                continue
            if (one.status, one.calculator) != (other.status, other.calculator) and one.status == "answered":
                yield Finding("error", self.name,
                              f"it makes {case.question!r} (of {case.place.partition(',')[0]}) ambiguous: now "
                              f"{other.status}{f' by {other.calculator}' if other.calculator else ''}: "
                              f"{other.headline} Shared words: {', '.join(sorted(shared)) or 'none but its units'}.",
                              "only='...' with words that nobody else's questions have keeps it out of them.")

    def plain_sentences(self, among: Conversation) -> Iterator[Finding]:
        """Sentences made of its words that it answers alone, and among all others does not."""
        talk = Conversation(self.alone)
        for id in self.alone.models:
            lost = 0
            for sentence in sentences(self.alone, id):
                self.doing(f"asking {sentence!r} alone and among all calculators")
                one, other = (t.answer(sentence)[0] for t in (talk, among))
                if (one.status, one.calculator) != ("answered", id) or (other.status, other.calculator) == (
                        one.status, id) or lost == MOST_TOLD:
                    continue
                lost += 1
                who = f"{other.calculator} takes it" if other.calculator not in (None, id) else f"it is {other.status}"
                yield Finding("warning" if other.status == "answered" else "note", id,
                              f"among all that is installed, {sentence!r} is not answered by it: {who}: "
                              f"{other.headline}", OWN_WORDS)

    def shared(self, question: str, among: Conversation) -> set[str]:
        """The words of a question that mean something to this plugin."""
        message = among.reader.take_apart(question)
        things = {str(row.get("id")) for row in self.plugin.substances}
        units = {w for row in self.plugin.units for w in (row.get("words") or "").split(";")}
        return {message.words(m.first, m.last) for m in message.matches
                if any(id.partition(".")[0] == self.name for id in m.entry.meanings)
                or any(s.id in things for s in m.entry.substances)} | {
                t.text for t in message.tokens if t.text in units}

    def late_errors(self) -> Iterator[Finding]:
        """What went wrong in its own code while it was asked."""
        for text in self.plugin.errors:
            if text not in self.seen:
                yield Finding("error", self.name, text, advice(text))


def wrong(case: Case, kernel: Kernel, answer: dict[str, object]) -> str:
    """Why an answer is not what the example says; empty if it is."""
    try:
        assert_case(case, kernel, lambda question: answer)
    except (AssertionError, ValueError) as e:
        return str(e).removeprefix(f"{case.place}: {case}: ").replace("\n", " ")
    return ""


def _said(kind: str, text: str) -> str:
    return f"found wrong when asked for {text}" if kind == "direction" else text
