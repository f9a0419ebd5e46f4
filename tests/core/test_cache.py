"""Kept plans: reused, shared, and never believed beyond what the declaration bears out."""

from __future__ import annotations

import hashlib
import json
import multiprocessing
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stillroom import Calculator, Function, Kernel

from .samples import BRINE, CLIMB, HILL, ROOM, TEA, ask, kernel_of, number, slope

ASKED: dict[str, tuple[Calculator, dict[str, tuple[float, str]], str]] = {
    "a product": (TEA, {"leaf": (10, "gram"), "water": (2, "liter")}, "dose"),
    "a default": (TEA, {"water": (2, "liter")}, "leaf"),
    "a block": (BRINE, {"strength": (10, "percent_ww"), "water": (90, "gram")}, "salt"),
    "a quadratic": (ROOM, {"edge": (33, "centimeter"), "surface": (90, "milliliter")}, "long"),
    "a search": (CLIMB, {"steps": (90, "count"), "people": (100, "count")}, "place"),
    "several roots": (HILL, {"height": (75, "percent")}, "place"),
    "too little": (BRINE, {"strength": (10, "percent_ww")}, "salt"),
}
CASES = pytest.mark.parametrize("case", ASKED)


def told(case: str, cache: Path | None) -> tuple[str, float | None, str]:
    calculator, values, wanted = ASKED[case]
    answer = ask(kernel_of(calculator, cache=cache), calculator.name, values, wanted)
    return answer.status, round(answer.answer[0].base, 9) if answer.answer else None, answer.reason


def plans_in(folder: Path) -> Path:
    (path,) = [p for p in folder.iterdir() if not p.name.startswith("units")]
    return path


def seal(data: dict[str, Any]) -> str:
    """The file as the kernel would have written it, so that only the plan itself is wrong."""
    text = json.dumps(data["plans"], separators=(",", ":"))
    return json.dumps({**data, "sum": hashlib.sha256(text.encode()).hexdigest()})


@CASES
def test_a_kept_plan_answers_the_same_without_deriving(
    case: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = told(case, tmp_path)
    if case == "several roots":  # a plan from a file that leads to no number is derived once more
        assert told(case, tmp_path) == first
        return

    def fail(*_: object) -> None:
        raise AssertionError("derived again")

    monkeypatch.setattr("stillroom.derive.solve_block", fail)
    monkeypatch.setattr("stillroom.derive.redundant", fail)
    assert told(case, tmp_path) == first == told(case, tmp_path)


DAMAGE: dict[str, Callable[[str], str | bytes]] = {
    "empty": lambda t: "",
    "half": lambda t: t[: len(t) // 2],
    "not text": lambda t: b"\xff\xfe\x00" * 99,
    "not an object": lambda t: "[1, 2]",
    "another's": lambda t: '{"plans": {}, "made by": ["someone"]}',
    "another version": lambda t: t.replace('"made by":["', '"made by":["9'),
    "too deep": lambda t: "[" * 200_000,
    "huge": lambda t: t + " " * 5_000_000,
    "one digit": lambda t: (
        t.replace("1", "2", 1) if '"plans":{"spare"' not in t else t.replace('"spare":[', '"spare":[0')
    ),
    "no sum": lambda t: json.dumps({k: v for k, v in json.loads(t).items() if k != "sum"}),
    "null": lambda t: "null",
    "nan": lambda t: "NaN",
}


@pytest.mark.parametrize("case", ["a product", "a block"])
@pytest.mark.parametrize("damage", DAMAGE.values(), ids=DAMAGE.keys())
def test_a_damaged_or_foreign_file_is_ignored(case: str, damage: Callable[[str], str | bytes], tmp_path: Path) -> None:
    first = told(case, tmp_path)
    path = plans_in(tmp_path)
    content = damage(path.read_text())
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    assert told(case, tmp_path) == first
    assert json.loads(path.read_text())["plans"]


def test_a_folder_that_cannot_be_written_is_no_error(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("")
    assert told("a product", blocked / "folder")[0] == "answered"


WRONG_STEPS: dict[str, list[Any]] = {
    "a constant": [["dose", [5.0], None]],
    "another formula": [["dose", [["*", "leaf", "water"]], None]],
    "off by a little": [["dose", [["*", ["/", "leaf", "water"], 1.000001]], None]],
    "no steps": [],
    "another name": [["leaf", ["water"], None]],
    "twice": [["dose", ["leaf"], None], ["dose", ["water"], None]],
    "itself": [["dose", ["dose"], None]],
    "undeclared": [["dose", ["price"], None]],
    "unknown function": [["dose", [["call", "system", "leaf"]], None]],
    "an operator of its own": [["dose", [["%", "leaf", "water"]], None]],
    "a search without an end": [["dose", [], ["-", "dose", "leaf"]]],
    "neither": [["dose", [], None]],
    "both": [["dose", ["leaf"], "leaf"]],
    "infinite": [["dose", [1e400], None]],
    "text": [["dose", ["__import__('os')"], None]],
    "too many": [["dose", ["leaf"], None]] * 99,
    "huge": [["dose", [["+", *[["*", "leaf", "water"]] * 2]] * 3000, None]],
    "dividing by nothing": [["dose", [["/", "leaf", 0.0]], None]],
    "a negative root": [["dose", [["**", ["neg", "leaf"], 0.5]], None]],
    "not a list": [5],
    "no object": ["dose"],
}


@pytest.mark.parametrize("steps", WRONG_STEPS.values(), ids=WRONG_STEPS.keys())
def test_a_corrupted_plan_never_gives_a_number_of_its_own(steps: list[Any], tmp_path: Path) -> None:
    first = told("a product", tmp_path)
    path = plans_in(tmp_path)
    data = json.loads(path.read_text())
    (key,) = [k for k in data["plans"] if k != "spare"]
    data["plans"][key]["steps"] = steps
    path.write_text(seal(data))
    assert told("a product", tmp_path) == first


@pytest.mark.parametrize(
    "change",
    [
        {"defaults": ["dose"]},
        {"defaults": ["leaf"]},
        {"defaults": ["water", "water"]},
        {"free": "water"},
        {"free": "dose"},
        {"free": "price"},
        {"defaults": "dose"},
        {"defaults": [5]},
        {"steps": {}},
        {"steps": None},
        {"defaults": ["dose"], "steps": []},
        {"missing": [["leaf"]], "steps": None},
        {"missing": "leaf"},
        {"missing": [[5]]},
    ],
    ids=str,
)
def test_what_a_corrupted_plan_assumes_is_not_taken(change: dict[str, Any], tmp_path: Path) -> None:
    first = told("a product", tmp_path)
    path = plans_in(tmp_path)
    data = json.loads(path.read_text())
    (key,) = [k for k in data["plans"] if k != "spare"]
    data["plans"][key].update(change)
    path.write_text(seal(data))
    status, value, _ = told("a product", tmp_path)
    assert (status, value) == first[:2] or (status == "asks" and "missing" in change)


def test_a_plan_that_hides_an_equation_is_found_out(tmp_path: Path) -> None:
    """The file says that the only equation is to spare, and that the amount wanted is its default."""
    first = told("a product", tmp_path)
    path = plans_in(tmp_path)
    data = json.loads(path.read_text())
    (key,) = [k for k in data["plans"] if k != "spare"]
    data["plans"].update({"spare": [0], key: {"defaults": ["dose"], "free": None, "steps": []}})
    path.write_text(seal(data))
    status, value, _ = told("a product", tmp_path)
    assert (status, value) == first[:2] or status != "answered"


@pytest.fixture(scope="module")
def originals(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[Path, dict[str, Any], tuple[Any, ...]]]:
    kept = {}
    for case in ("a block", "a quadratic", "a search", "a default"):
        folder = tmp_path_factory.mktemp("plans")
        first = told(case, folder)
        kept[case] = (plans_in(folder), json.loads(plans_in(folder).read_text()), first)
    return kept


def _places(data: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    yield path
    if isinstance(data, list):
        for i, part in enumerate(data):
            yield from _places(part, (*path, i))
    elif isinstance(data, dict):
        for key, part in data.items():
            yield from _places(part, (*path, key))


PIECES = st.sampled_from(
    [
        0.0,
        1.0,
        2.0,
        -1.0,
        "+",
        "-",
        "*",
        "/",
        "**",
        "neg",
        "call",
        "slope",
        "salt",
        "water",
        "brine",
        "strength",
        "long",
        "short",
        "edge",
        "surface",
        "place",
        "steps",
        "people",
        "height",
        "leaf",
        "dose",
        None,
        [],
        ["neg", "water"],
        ["*", "people", "place"],
        ["**", "edge", 2.0],
        True,
    ]
)


@settings(deadline=None, max_examples=80)
@given(st.data())
def test_whatever_is_changed_in_a_plan_its_number_fits_every_equation(originals, data) -> None:
    """All that one who forges the seal too can do is hide one of two roots: what is left still fits."""
    case = data.draw(st.sampled_from(sorted(originals)))
    path, original, first = originals[case]
    forged = json.loads(json.dumps(original))
    (key,) = [k for k in forged["plans"] if k != "spare"]
    for _ in range(data.draw(st.integers(1, 2))):
        place = data.draw(st.sampled_from([p for p in _places(forged["plans"][key], (key,)) if len(p) > 1]))
        target = forged["plans"]
        for step in place[:-1]:
            target = target[step]
        target[place[-1]] = json.loads(json.dumps(data.draw(PIECES)))
    path.write_text(seal(forged))
    status, value, _ = told(case, path.parent)
    assert (status, value) == first[:2] or (case, status, value) == ("a quadratic", "answered", 3.0)


def test_another_declaration_reads_none_of_it(tmp_path: Path) -> None:
    told("a product", tmp_path)
    doubled = Calculator("tea", "Leaf for tea", *TEA.parts, equations=["leaf = dose * water * 2"])
    answer = ask(kernel_of(doubled, cache=tmp_path), "tea", {"leaf": (10, "gram"), "water": (2, "liter")}, "dose")
    assert number(answer) * 1000 == pytest.approx(2.5)
    renamed = plans_in_all(tmp_path)
    assert len(renamed) == 2


def plans_in_all(folder: Path) -> list[Path]:
    return [p for p in folder.iterdir() if not p.name.startswith("units")]


def test_a_file_under_the_name_of_another_is_not_read(tmp_path: Path) -> None:
    told("a product", tmp_path)
    doubled = Calculator("tea", "Leaf for tea", *TEA.parts, equations=["leaf = dose * water * 2"])
    solver = kernel_of(doubled, cache=tmp_path).solver("tea.tea")
    assert solver._path is not None
    plans_in(tmp_path).rename(solver._path)
    answer = ask(kernel_of(doubled, cache=tmp_path), "tea", {"leaf": (10, "gram"), "water": (2, "liter")}, "dose")
    assert number(answer) * 1000 == pytest.approx(2.5)


def test_a_new_version_of_a_function_is_derived_anew(tmp_path: Path) -> None:
    def climb(version: str) -> Kernel:
        f = Function("slope", slope, ("percent",), "percent", (0, 100), version=version)
        return kernel_of(
            Calculator("climb", "t", *CLIMB.parts, equations=CLIMB.equations, functions=[f]), cache=tmp_path
        )

    for version in ("1", "2", "1"):
        ask(climb(version), "climb", {"height": (50, "percent")}, "place")
    assert len(plans_in_all(tmp_path)) == 2


def test_the_least_recently_used_plan_goes_first(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("stillroom.solver.MOST_PLANS", 2)
    kernel = kernel_of(BRINE)
    solver = kernel.solver("brine.brine")
    for given_, wanted in (
        ("salt water", "brine"),
        ("salt brine", "water"),
        ("salt water", "brine"),
        ("brine water", "salt"),
    ):
        names = given_.split()
        solver.solve({names[0]: 20.0 if "salt" in names[0] else 100.0, names[1]: 80.0}, {}, (wanted,))
    assert [(sorted(q.given), q.wanted) for q in solver._plans] == [
        (["salt", "water"], ("brine",)),
        (["brine", "water"], ("salt",)),
    ]


def _work(folder: str, first: int, queue: Any) -> None:
    names = ["salt", "water", "brine"]
    kernel = kernel_of(BRINE, cache=Path(folder))
    found = []
    for i in range(6):
        a, b, wanted = (names[(first + i + k) % 3] for k in range(3))
        values = {"salt": 20.0, "water": 80.0, "brine": 100.0}
        found.append(
            number(ask(kernel, "brine", {n: (values[n], "gram") for n in (a, b)}, wanted))
            == pytest.approx(values[wanted])
        )
    queue.put(all(found))


def test_two_processes_share_a_folder(tmp_path: Path) -> None:
    context = multiprocessing.get_context("fork")
    queue = context.Queue()
    workers = [context.Process(target=_work, args=(str(tmp_path), i, queue)) for i in range(2)]
    for w in workers:
        w.start()
    for w in workers:
        w.join(60)
    assert [w.exitcode for w in workers] == [0, 0] and queue.get() and queue.get()
    data = json.loads(plans_in(tmp_path).read_text())
    assert len(data["plans"]) == 3, "neither lost the other's"
    assert not list(tmp_path.glob("*.part"))
