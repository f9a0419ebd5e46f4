"""Orders of solution: the Dulmage-Mendelsohn parts and the blocks of small systems worked out by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stillroom.structure import order

CASES = {
    "nothing": ([], "", [], [], ""),
    "a chain": (["ab", "bc", "cd"], "a", [((0,), "b"), ((1,), "c"), ((2,), "d")], [], ""),
    "a chain from the other end": (["ab", "bc", "cd"], "d", [((2,), "c"), ((1,), "b"), ((0,), "a")], [], ""),
    "two together": (["xy", "xy"], "", [((0, 1), "xy")], [], ""),
    "a block and what follows": (["xy", "xy", "yz"], "", [((0, 1), "xy"), ((2,), "z")], [], ""),
    "too little known": (["abc"], "a", [], [], "bc"),
    "too little for a part": (["ab", "cde"], "a", [((0,), "b")], [], "cde"),
    "an equation to spare": (["ab", "ab"], "a", [((0,), "b")], [1], ""),
    "all known": (["ab"], "ab", [], [0], ""),
    "three in a ring": (["ab", "bc", "ca"], "", [((0, 1, 2), "abc")], [], ""),
    "an open end behind a determined one": (["ab", "bcd"], "a", [((0,), "b")], [], "cd"),
}


@pytest.mark.parametrize(("equations", "known", "blocks", "checks", "open_"), CASES.values(), ids=CASES.keys())
def test_order(
    equations: list[str], known: str, blocks: list[tuple[tuple[int, ...], str]], checks: list[int], open_: str
) -> None:
    found = order([set(e) for e in equations], set(known))
    assert sorted((rows, "".join(sorted(names))) for rows, names in found.blocks) == sorted(blocks)
    assert (list(found.checks), found.open) == (checks, frozenset(open_))


SYSTEMS = st.lists(st.sets(st.sampled_from("abcdefg"), min_size=1, max_size=4), max_size=7)


@given(SYSTEMS, st.sets(st.sampled_from("abcdefg"), max_size=4))
def test_each_block_needs_only_what_is_before_it(equations: list[set[str]], known: set[str]) -> None:
    found, have = order(equations, known), set(known)
    for rows, names in found.blocks:
        assert len(rows) == len(names)
        assert all(equations[i] <= have | set(names) for i in rows)
        assert not have & set(names)
        have |= set(names)
    assert not have & found.open
    assert have | found.open >= {n for e in equations for n in e}
    assert all(equations[i] <= have for i in found.checks)


@given(SYSTEMS, st.sets(st.sampled_from("abcdefg"), max_size=3), st.sampled_from("abcdefg"))
def test_knowing_more_never_leaves_more_open(equations: list[set[str]], known: set[str], more: str) -> None:
    assert order(equations, known | {more}).open <= order(equations, known).open
