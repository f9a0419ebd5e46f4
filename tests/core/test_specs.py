"""Specs: sums over the lines, what is short, what is lacking, the one unknown cell."""

from __future__ import annotations

from types import SimpleNamespace

import pytest
from stillroom import Amount, Answer, Calculator, Kernel, Line, Lines, var
from stillroom.errors import RequestError

SUBSTANCES = [
    {"id": "ink", "state": "liquid", "kind": "strong", "density": "0.9", "power": "40", "source": "a table of ours"},
    {"id": "sand", "state": "dry", "kind": "dry", "density": "1.6", "power": "", "source": "a table of ours"},
    {"id": "dye", "state": "liquid", "kind": "strong", "density": "", "power": "", "source": "a table of ours"},
]
BLEND = Calculator(
    "blend",
    "Power of a blend",
    var("volume", "milliliter"),
    var("mass", "gram"),
    var("active", "milliliter", hidden=True),
    var("power", "percent_vv", bounds=(0, 100)),
    var("copies", "count"),
    var("all", "milliliter"),
    equations=["active = power * volume", "all = copies * volume"],
    lines=Lines(
        sums={"volume": "volume", "mass": "mass", "active": "volume * power"},
        each={"share": "amount * copies"},
        columns={"power": "percent_vv", "supply": "amount"},
        fills={"power": "power"},
        holds={"power": "strong"},
        needs=("power",),
        least={"copies": "supply / amount"},
    ),
    asked="power, all",
)


@pytest.fixture(scope="module")
def kernel() -> Kernel:
    from stillroom import hookimpl

    made = Kernel(discover=False)
    calculators = hookimpl(lambda: [BLEND])
    substances = hookimpl(lambda: SUBSTANCES)
    plugin = made.add("ink", SimpleNamespace(stillroom_calculators=calculators, stillroom_substances=substances))
    assert plugin.errors == []
    return made


def line(
    kernel: Kernel, thing: str, value: float | None, unit: str = "milliliter", /, **more: tuple[float, str]
) -> Line:
    def amount(v: float, u: str) -> Amount:
        return Amount(v, u, kernel.units[u].to_base(v))

    substance = thing if thing in kernel.substances else None
    return Line(
        thing, None if value is None else amount(value, unit), {n: amount(*a) for n, a in more.items()}, substance
    )


def ask(kernel: Kernel, lines: list[Line], given: dict[str, tuple[float, str]] | None = None, *wanted: str) -> Answer:
    return kernel.answer(kernel.request("ink.blend", given or {}, wanted, spec=tuple(lines)))


def numbers(answer: Answer) -> dict[str, float]:
    assert answer.status == "answered", answer.reason
    return {v.name: v.value for v in answer.answer}


def test_volumes_and_masses_follow_from_a_density(kernel: Kernel) -> None:
    lines = [line(kernel, "ink", 100), line(kernel, "ink", 90, "gram"), line(kernel, "sand", 10, "gram")]
    answer = ask(kernel, lines, {}, "volume", "mass")
    assert numbers(answer) == {"volume": pytest.approx(200), "mass": pytest.approx(90 + 90 + 10)}
    assert any("sand: not counted in the volume" in text for text in answer.assumptions)


def test_a_row_supplies_what_a_line_does_not_say(kernel: Kernel) -> None:
    answer = ask(kernel, [line(kernel, "ink", 50), line(kernel, "brew", 50, power=(20, "percent_vv"))])
    assert numbers(answer) == {"power": pytest.approx(30)}
    assert "ink: power 40 % v/v" in answer.assumptions and "a table of ours" in answer.sources


def test_what_a_line_says_wins_over_its_row(kernel: Kernel) -> None:
    answer = ask(kernel, [line(kernel, "ink", 50, power=(60, "percent_vv"))])
    assert numbers(answer) == {"power": pytest.approx(60)} and not answer.assumptions


def test_only_kinds_that_may_hold_it_are_asked_for_it(kernel: Kernel) -> None:
    dry = ask(kernel, [line(kernel, "ink", 50), line(kernel, "sand", 10, "gram")])
    assert numbers(dry) == {"power": pytest.approx(40)}
    for thing in ("dye", "nobody knows"):
        answer = ask(kernel, [line(kernel, "ink", 50), line(kernel, thing, 50)])
        assert answer.status == "asks" and answer.missing == ((f"power of {thing}",),)


def test_what_is_lacking_is_asked_for_only_where_it_matters(kernel: Kernel) -> None:
    assert numbers(ask(kernel, [line(kernel, "dye", 50)], {"copies": (3, "count")}, "all")) == {"all": 150}


def test_the_smallest_supply_decides(kernel: Kernel) -> None:
    lines = [line(kernel, "ink", 60, supply=(1.8, "liter")), line(kernel, "sand", 30, "gram", supply=(0.6, "kilogram"))]
    answer = ask(kernel, lines, {}, "copies")
    assert numbers(answer) == {"copies": pytest.approx(20)} and "sand runs out first" in answer.assumptions


def test_a_supply_is_measured_as_its_line_is(kernel: Kernel) -> None:
    with pytest.raises(RequestError, match="supply"):
        ask(kernel, [line(kernel, "ink", 60, supply=(1, "gram"))], {}, "copies")


def test_each_line_in_its_own_unit_and_order(kernel: Kernel) -> None:
    lines = [line(kernel, "sand", 10, "gram"), line(kernel, "ink", 1, "liter")]
    answer = ask(kernel, lines, {"copies": (4, "count")}, "ink")
    assert [(v.name, v.value, v.unit) for v in answer.answer[:2]] == [("ink", 4, "liter"), ("sand", 40, "gram")]


def test_a_line_is_not_answered_in_a_unit_of_another_kind(kernel: Kernel) -> None:
    units = {"ink": "ounce"}
    request = kernel.request(
        "ink.blend", {"copies": (4, "count")}, ["ink"], spec=(line(kernel, "ink", 1, "liter"),), units=units
    )
    assert (kernel.answer(request).answer[0].value, kernel.answer(request).answer[0].unit) == (4, "liter")


def test_an_unknown_amount_and_an_unknown_attribute(kernel: Kernel) -> None:
    weak = line(kernel, "water", 100, power=(0, "percent_vv"))
    amount = ask(kernel, [line(kernel, "ink", None), weak], {"power": (10, "percent_vv")})
    assert numbers(amount)["ink"] == pytest.approx(100 / 3, rel=1e-12)
    strength = ask(kernel, [line(kernel, "dye", 50), weak], {"power": (10, "percent_vv")})
    assert numbers(strength) == {"power of dye": pytest.approx(30, rel=1e-12)}


def test_an_unknown_that_cannot_be(kernel: Kernel) -> None:
    answer = ask(
        kernel,
        [line(kernel, "ink", None), line(kernel, "water", 100, power=(0, "percent_vv"))],
        {"power": (50, "percent_vv")},
    )
    assert answer.status == "declined" and "amount of ink" in answer.reason


def test_a_line_without_a_size_is_asked_for(kernel: Kernel) -> None:
    answer = ask(
        kernel, [line(kernel, "ink", 50), line(kernel, "splash of dye", None)], {"copies": (2, "count")}, "all"
    )
    assert answer.status == "asks" and answer.missing == (("amount of splash of dye",),)


def test_a_plugins_cautions_go_with_every_answer_and_a_broken_one_is_named() -> None:
    from stillroom import hookimpl

    def told(request: object, answer: Answer) -> list[str]:
        return [f"mind the {answer.status}"]

    def broken(request: object, answer: Answer) -> list[str]:
        raise KeyError("nothing")

    made = Kernel(discover=False)
    for name, hook in (("first", told), ("second", broken)):
        hook.__name__ = "stillroom_cautions"
        made.add(name, SimpleNamespace(stillroom_cautions=hookimpl(hook)))
    made.add("ink", BLEND)
    request = made.request("ink.blend", {"active": (1, "milliliter"), "volume": (4, "milliliter")}, ["power"])
    assert made.answer(request).cautions == ("mind the answered",)
    assert "KeyError" in made.plugins["second"].errors[0] and len(made.plugins["second"].errors) == 1
    assert made.answer(request).cautions == ("mind the answered",)
