"""The candidates of calculators for a message: rows, numbers and wishes put together, step by step.

At each step it is known how much they can come to at most, so that a calculator is left alone as soon as
that is less than what another one makes of the message.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from copy import copy
from heapq import heapify, heappop, heappush

from stillroom.units import Units

from .bounds import Bounds
from .candidate import Candidate
from .kept import kept
from .lexicon import Lexicon
from .message import Message
from .placing import Placing
from .profile import Profile
from .rows import RowOption, most_of_rows, row_options
from .view import View
from .wanting import Wishes

OPEN = 0.4
MOST_OF_EACH = 3
ROUNDING = 1e-9
"""What sums of the same numbers in another order may differ by: a bound is never below a score for that."""
LEAST = -1e9


class Look:
    """A view with one choice of rows."""

    def __init__(self, view: View, option: RowOption):
        self.view, self.option = view, option
        view.rows = option.rows
        self.sure = option.score + view.cover - view.blank + ROUNDING

    @kept
    def placing(self) -> Placing:
        """Where the numbers may go."""
        return Placing(self.view)

    @kept
    def wishes(self) -> Wishes:
        """What may be wanted."""
        return Wishes(self.view)

    @kept
    def wished(self) -> float:
        """No wish scores more than this."""
        return max(self.wishes.most, self.view.message.once(Bounds).unnamed(self.view.profile))

    def candidates(self, least: float = LEAST) -> Iterator[Candidate]:
        """The ways to take the message; none below ``least`` is looked for."""
        view, option, wishes = self.view, self.option, self.wishes
        for p in self.placing.best(least - (self.sure + self.wished)):
            chosen = dict(option.rows)
            for u in p.uses:
                if u.row and u.evidence > 0.5:
                    chosen.setdefault(*u.row)
            given = frozenset(u.variable for u in p.uses)
            for wish in wishes.of(given, bool(p.lines), p.uses):
                rows = {**wish.rows, **chosen}
                still_open = OPEN * sum(c not in rows and c not in view.settled for c in view.profile.must)
                score = p.score + option.score + wish.score + view.cover - view.blank - still_open
                if score < least:
                    continue
                parts = {
                    "numbers": p.score,
                    "choices": option.score - still_open,
                    "asked": wish.score,
                    "subject": view.cover,
                    "unread": -view.blank,
                }
                yield Candidate(
                    view.model,
                    p.uses,
                    rows,
                    wish.names,
                    score,
                    wish.implied,
                    parts,
                    p.lines,
                    p.attributes,
                    p.unused,
                    view.covered | option.tokens,
                    wishes.strange,
                    wish.implied and bool(wish.names) and wishes.met(given),
                )


def looks(view: View) -> list[Look]:
    """A look for each way in which the message names rows."""
    first, *others = row_options(view)
    return [Look(view, first), *(Look(copy(view), o) for o in others)]


def candidates_of(view: View, most: int, least: float = LEAST) -> list[Candidate]:
    """The best few ways in which a calculator can take a message, best first; none below ``least``."""
    found = [c for look in looks(view) for c in look.candidates(least)]
    found.sort(key=lambda c: -c.score)
    return found[:most]


class Prospect:
    """A calculator that may take a message, looked at only as closely as it has to be."""

    def __init__(self, profile: Profile, lexicon: Lexicon, message: Message, units: Units, cover: float):
        self.profile, self.lexicon, self.message, self.units, self.cover = profile, lexicon, message, units, cover
        self.bounds = message.once(Bounds)

    @kept
    def looks(self) -> list[Look]:
        """A look for each way in which the message names rows."""
        return looks(View(self.profile, self.lexicon, self.message, self.units, self.cover))

    def most(self) -> Iterator[float]:
        """The most that a candidate can score, known the better the closer one looks."""
        bounds = self.bounds
        yield self.cover + ROUNDING + most_of_rows(self.profile) + bounds.unseen(self.profile, self.units)
        wished = bounds.wished(self.looks[0].view)
        placed = bounds.placed(self.looks[0].view)
        yield max(x.sure for x in self.looks) + placed + wished
        yield max(x.sure + x.wished for x in self.looks) + placed
        yield max(x.sure + x.placing.most + x.wished for x in self.looks)

    def candidates(self, least: float) -> Iterator[Candidate]:
        """The ways to take the message; none below ``least`` is looked for."""
        for look in self.looks:
            yield from look.candidates(least)


class BestFirst(Iterator[Candidate]):
    """The ways in which calculators can take a message, best first, ``MOST_OF_EACH``; the earlier first of equals.

    Only as much is looked at as tells which is the next.  None below ``least`` is given, which rises to ``far`` behind
    the best, and which whoever takes the candidates may raise further; nor any that does not do for ``fits``.
    """

    def __init__(
        self, prospects: list[Prospect], least: float, far: float, fits: Callable[[Candidate], bool] | None = None
    ):
        self.least, self.far, self.fits = least, far, fits
        self._prospects = prospects
        self._bounds = [x.most() for x in prospects]
        self._unknown = [(-next(most), i) for i, most in enumerate(self._bounds)]
        heapify(self._unknown)
        self._known: list[tuple[float, int, int, Candidate]] = []
        self._given: Counter[str] = Counter()

    def __next__(self) -> Candidate:
        known, unknown = self._known, self._unknown
        while known or unknown:
            given = bool(known) and (not unknown or known[0][:2] < unknown[0])
            if -(known if given else unknown)[0][0] < self.least:
                break
            if not given:
                self._closer(heappop(unknown)[1])
                continue
            c = heappop(known)[-1]
            self._given[c.model.id] += 1
            if self._given[c.model.id] <= MOST_OF_EACH and (self.fits is None or self.fits(c)):
                return c
        raise StopIteration

    def _closer(self, i: int) -> None:
        """Look closer at the numbers and wishes of one calculator, and put them together when both are known."""
        most = next(self._bounds[i], None)
        if most is not None:
            heappush(self._unknown, (-most, i))
            return
        for n, c in enumerate(self._prospects[i].candidates(self.least)):
            heappush(self._known, (-c.score, i, n, c))
        if self._known:
            self.least = max(self.least, -self._known[0][0] - self.far)
