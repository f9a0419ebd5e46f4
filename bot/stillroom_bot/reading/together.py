"""What speaks for numbers being put where they are together: groups, an amount and its strength, one currency."""

from __future__ import annotations

from itertools import pairwise

from .candidate import Use
from .clauses import SENTENCE_ENDS
from .profile import Profile
from .view import View

TOGETHER, IN_ORDER = 0.3, 0.6
FOR = 0.6
TIGHT, OF = 0.4, frozenset("of at the a an our my @ ( is".split())


def most_together(profile: Profile, numbers: int, money: bool) -> float:
    """What can speak at most for how so many numbers stand together, ``money`` among them or not."""
    groups, shares = bool(profile.groups), bool(profile.shares)
    return numbers * ((TOGETHER + FOR) * groups + TIGHT * (groups or shares)) + IN_ORDER * groups + TIGHT * money


def _tight(view: View, i: int, j: int) -> bool:
    """``200 g 5 %``, ``0.4 kg of the 10 %``: an amount and its own strength, one after the other."""
    m = view.message
    a, b = m.quantities[i], m.quantities[j]
    between = range(a.last + 1, b.first)
    return b.strength and not a.strength and all(m.tokens[k].text in OF for k in between)


def _for_so_many(view: View, i: int, j: int) -> bool:
    """``450 ml of lemon juice for 30 persons``: an amount and how many it is for, in one sentence."""
    m = view.message
    a, b = m.quantities[i], m.quantities[j]
    told = [t.text for t in m.tokens[a.last + 1 : b.first]]
    return bool(a.units) and b.bare and told[-1:] == ["for"] and SENTENCE_ENDS.isdisjoint(told)


def together(view: View, uses: tuple[Use, ...]) -> float:
    """What speaks for numbers that stand together going together, and for groups in the order of the words."""
    groups = view.profile.groups
    same = _one_currency(view, uses)
    if len(uses) < 2:
        return same
    if not groups:
        shares = view.profile.shares
        placed = sorted(uses, key=lambda u: u.quantity)
        owned = [(u.quantity, shares[u.variable]) for u in placed if u.variable in shares]
        return same + sum(
            TIGHT if a == b else -TIGHT for (i, a), (j, b) in pairwise(owned) if j == i + 1 and _tight(view, i, j)
        )
    tags = [(u.quantity, groups[u.variable]) for u in sorted(uses, key=lambda u: u.quantity) if u.variable in groups]
    bonus = sum(TOGETHER for (i, a), (j, b) in pairwise(tags) if a == b and j == i + 1)
    bonus += sum(TIGHT if a == b else -TIGHT for (i, a), (j, b) in pairwise(tags) if j == i + 1 and _tight(view, i, j))
    bonus += sum(
        FOR if a == b else -FOR for (i, a), (j, b) in pairwise(tags) if j == i + 1 and _for_so_many(view, i, j)
    )
    seen = list(dict.fromkeys(t[1] for t in tags))
    declared = [g for g in dict.fromkeys(groups.values()) if g in seen]
    return same + bonus + (IN_ORDER if seen == declared else 0.0)


def _one_currency(view: View, uses: tuple[Use, ...]) -> float:
    """``15 GBP, 1 GBP = 1.18 EUR``: what there is a price of, and what one of its money is worth."""
    by_role = {view.model.variables[u.variable].role: view.message.quantities[u.quantity].money for u in uses}
    said, one = by_role.get("from", ""), by_role.get("per", "")
    return (TIGHT if said == one else -TIGHT) if said and one else 0.0
