"""The schemas are schemas, what the kernel writes fits them, and what is wrong does not (by jsonschema)."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

import pytest
import stillroom_bar
from jsonschema import Draft202012Validator
from stillroom import Kernel
from stillroom.errors import RequestError, UnitError
from stillroom.schema import answer_schema, calculator_schema, request_schema, schemas, units_of
from stillroom.testing.drawing import points, request_of

from .samples import INK, TEA, kernel_of
from .test_specs import BLEND

KERNEL = kernel_of(TEA, INK, BLEND)
TEA_REQUEST = {"calculator": "tea.tea", "given": {"water": {"value": 1.5, "unit": "liter"}}, "wanted": ["leaf"]}


@cache
def bar() -> Kernel:
    kernel = Kernel(discover=False)
    kernel.add("bar", stillroom_bar)
    return kernel


@cache
def anything() -> Draft202012Validator:
    """Whatever fits one of the schemas of the bar."""
    return Draft202012Validator(schemas(bar().models))


def valid(schema: Mapping[str, Any], data: object) -> bool:
    return Draft202012Validator(schema).is_valid(data)


def test_every_schema_is_one() -> None:
    whole = schemas(bar().models)
    Draft202012Validator.check_schema(whole)
    assert {"Request", "Answer", *bar().models} == whole["$defs"].keys()


@pytest.mark.parametrize("id", sorted(bar().models))
def test_requests_and_answers_fit(id: str) -> None:
    """Of every calculator: a drawn request, as the kernel writes it and as a program would, and its answer."""
    from hypothesis import HealthCheck, Phase, given, settings

    kernel, schema, seen = bar(), calculator_schema(bar().model(id)), []

    @settings(max_examples=1, deadline=None, database=None, derandomize=True, phases=[Phase.generate],
              suppress_health_check=list(HealthCheck))
    @given(points(kernel, id))
    def one(point: Any) -> None:
        request = request_of(kernel, kernel.model(id), point)
        data = request.to_json()
        plain = {**data, "given": {n: {"value": a["value"], "unit": a["unit"]} for n, a in data["given"].items()}}
        for form in (data, plain):
            assert not list(Draft202012Validator(schema).iter_errors(form))
            assert valid(request_schema(), form) and anything().is_valid(form)
        assert kernel.request_from(plain).given.keys() == request.given.keys()
        answer = kernel.answer(kernel.request_from(plain)).to_json()
        assert valid(answer_schema(), answer) and answer["status"] == "answered"
        seen.append(1)

    one()
    assert seen


@pytest.mark.parametrize(("change", "fits"), [
    ({}, True),
    ({"wanted": ["water", "dose"]}, True),
    ({"wanted": ["salt"]}, False),
    ({"calculator": "tea.other"}, False),
    ({"given": {"salt": {"value": 1, "unit": "gram"}}}, False),
    ({"given": {"water": {"value": 1, "unit": "gram"}}}, False),
    ({"given": {"water": {"value": "1", "unit": "liter"}}}, False),
    ({"given": {"water": {"value": 1}}}, False),
    ({"given": {"dose": {"value": 1, "unit": "gram / liter"}}}, True),
    ({"given": {"dose": {"value": 1, "unit": "milligram / milliliter"}}}, True),
    ({"choices": {"kind": "iron"}}, False),
    ({"extra": 1}, False),
    ({"now": "2026-01-01T10:00:00"}, True),
])
def test_what_fits_a_calculator(change: dict[str, Any], fits: bool) -> None:
    assert valid(calculator_schema(KERNEL.model("tea.tea")), {**TEA_REQUEST, **change}) is fits


def test_choices_and_specs() -> None:
    ink = calculator_schema(KERNEL.model("ink.ink"))
    assert valid(ink, {"calculator": "ink.ink", "choices": {"kind": "iron"}})
    assert not valid(ink, {"calculator": "ink.ink", "choices": {"kind": "chalk"}})
    blend = calculator_schema(KERNEL.model("blend.blend"))
    line = {"thing": "x", "amount": {"value": 1, "unit": "milliliter"}}
    assert valid(blend, {"calculator": "blend.blend", "spec": [line, line]})
    assert not valid(blend, {"calculator": "blend.blend", "spec": [{"thing": "x"}]})
    assert not valid(ink, {"calculator": "ink.ink", "spec": [line]})


def test_every_unit_that_is_offered_is_taken() -> None:
    """And of the kinds of percent, none that the kernel would refuse."""
    for id in ("bar.solution", "bar.dilution"):
        model = bar().model(id)
        for name in model.variables:
            offered = units_of(model, name)
            assert offered[0] == model.unit[name].name
            for unit in offered:
                assert bar().units[unit].dimension == model.unit[name].dimension
    assert "percent_vv" not in units_of(bar().model("bar.solution"), "strength")


@pytest.mark.parametrize(("data", "error"), [
    ([1], RequestError), ({}, RequestError), ({"calculator": "tea.tea", "given": 5}, RequestError),
    ({"calculator": "tea.tea", "given": {"water": {"value": 1, "unit": "furlong"}}}, UnitError),
    ({"calculator": "tea.tea", "given": {"water": {"value": "x", "unit": "liter"}}}, RequestError),
])
def test_data_that_is_no_request(data: Any, error: type[Exception]) -> None:
    with pytest.raises(error):
        KERNEL.request_from(data)
