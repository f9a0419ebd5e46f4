"""Units: what each is worth, against pint's own registry; quotients, own sizes, clashes, kinds, temperatures."""

from __future__ import annotations

from pathlib import Path

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from stillroom.errors import NameClash, UnitError
from stillroom.units import BASE, Units, own_rows

UNITS = Units()
PINT = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
SI = {
    "[mass]": ("mass", 1000.0),
    "[length]": ("length", 100.0),
    "[time]": ("time", 1.0),
    "[temperature]": ("temperature", 1.0),
    "[substance]": ("substance", 1.0),
}
BOTH = [u for u in UNITS if u.sized and u.name in PINT and u.name not in {"currency"}]


@pytest.mark.parametrize("unit", BOTH, ids=[u.name for u in BOTH])
def test_every_unit_that_pint_knows_too_is_worth_the_same(unit) -> None:
    """Source of the values: the default registry of pint (NIST SP 811, Handbook 44 and the SI Brochure)."""
    theirs = PINT.Quantity(3.0, unit.name).to_base_units()
    scale, dimension = 1.0, dict.fromkeys(BASE, 0.0)
    for name, power in theirs.dimensionality.items():
        ours, factor = SI[name]
        dimension[ours] = float(power)
        scale *= factor**power
    assert unit.dimension == tuple(dimension.values())
    assert unit.to_base(3.0) == pytest.approx(theirs.magnitude * scale, rel=1e-12)


def test_most_of_our_units_are_checked() -> None:
    ours = {u.name for u in UNITS if u.sized} - {u.name for u in BOTH}
    assert ours <= {
        "night",
        "metric_tablespoon",
        "metric_teaspoon",
        "imperial_gill",
        "currency",
        "percent_ww",
        "percent_vv",
        "percent_wv",
        "metric_cup",
        "imperial_fluid_ounce",
    }


@given(st.floats(1e-6, 1e9), st.sampled_from(BOTH))
def test_there_and_back(value: float, unit) -> None:
    assert unit.from_base(unit.to_base(value)) == pytest.approx(value, rel=1e-9, abs=1e-9 + 1e-12 * abs(unit.offset))


@pytest.mark.parametrize(
    ("value", "unit", "to", "want"),
    [
        (1.5, "gram / liter", "percent_wv", 0.15),
        (1, "pound / gallon", "gram / liter", 453.59237 / 3.785411784),
        (212, "degree_Fahrenheit", "degree_Celsius", 100),
        (0, "degree_Celsius", "kelvin", 273.15),
        (-40, "degree_Fahrenheit", "degree_Celsius", -40),
        (1, "imperial_gallon", "imperial_pint", 8),
        (1, "gallon", "cup", 16),
    ],
)
def test_conversions(value: float, unit: str, to: str, want: float) -> None:
    assert UNITS.convert(value, unit, to) == pytest.approx(want, rel=1e-12)


def test_different_dimensions_do_not_convert() -> None:
    with pytest.raises(UnitError, match=r"^gram cannot become liter: they measure different things.$"):
        UNITS.convert(1, "gram", "liter")


@pytest.mark.parametrize(
    ("name", "hint"),
    [
        ("litre", "There is no unit 'litre'. Did you mean liter"),
        ("gramm / liter", "There is no unit 'gramm / liter'."),
        ("gram / liter / second", "There is no unit"),
        ("gram * liter", "There is no unit"),
        ("9**9**9", "There is no unit '9**9**9'."),
        ("__import__('os')", "There is no unit"),
        ("", "There is no unit ''."),
    ],
)
def test_an_unknown_unit_is_named_with_its_nearest(name: str, hint: str) -> None:
    with pytest.raises(UnitError) as e:
        UNITS[name]
    assert str(e.value).startswith(hint)


def _row(name: str, definition: str, **more: str) -> dict[str, str]:
    return {"name": name, "definition": definition, **more}


def test_own_sizes_reach_quotients_and_leave_the_table_alone() -> None:
    table = Units([*own_rows(), _row("drop", "0.05 * milliliter", adjustable="yes")])
    assert table["gram / drop"].factor == pytest.approx(20)
    own = table.adjusted({"drop": 0.1})
    assert own["gram / drop"].factor == pytest.approx(10)
    assert table["drop"].factor == pytest.approx(0.05)


@pytest.mark.parametrize(
    "sizes",
    [
        {"gram": 5.0},
        {"unheard": 1.0},
        {"drop": 0.0},
        {"drop": -1.0},
        {"drop": float("nan")},
        {"drop": float("inf")},
        {},
    ],
    ids=str,
)
def test_a_size_that_cannot_be_changes_nothing(sizes: dict[str, float]) -> None:
    table = Units([*own_rows(), _row("drop", "0.05 * milliliter", adjustable="yes")])
    assert table.adjusted(sizes) is table


def test_looking_up_a_quotient_adds_no_unit() -> None:
    before = [u.name for u in UNITS]
    UNITS["gram / hour"]
    assert [u.name for u in UNITS] == before and "gram / hour" not in UNITS


def test_a_clash_names_both_owners() -> None:
    with pytest.raises(NameClash, match=r"^The unit 'gram' is defined twice, by the kernel and by a stranger.$"):
        Units([*own_rows(), _row("gram", "2", owner="a stranger")])


@pytest.mark.parametrize(
    "row",
    [
        _row("sip", "no such thing"),
        _row("sip", "2 * "),
        _row("sip", "__import__('os')"),
        {"name": "sip"},
        _row("", "gram"),
        {"definition": "gram"},
    ],
    ids=str,
)
def test_a_bad_definition_is_refused(row: dict[str, str]) -> None:
    with pytest.raises(UnitError):
        Units([*own_rows(), row])


def test_percents_have_a_kind_and_one_plain_name() -> None:
    kinds = {n: UNITS[n].kind for n in ("percent", "percent_ww", "percent_vv", "percent_wv")}
    assert kinds == {"percent": "percent", "percent_ww": "ww", "percent_vv": "vv", "percent_wv": "wv"}
    assert {UNITS[n].json_name for n in kinds} == {"percent"}
    assert UNITS["percent_wv"].dimension != UNITS["percent_ww"].dimension
    assert UNITS["ppm"].json_name == "ppm"


def test_a_measure_without_a_size() -> None:
    splash = Units([*own_rows(), _row("splash", "")])["splash"]
    assert not splash.sized


def test_what_pint_said_is_kept_and_a_damaged_copy_is_not_believed(tmp_path: Path) -> None:
    first = {u.name: u.factor for u in Units(cache=tmp_path)}
    (kept,) = tmp_path.iterdir()
    for content in (
        "{",
        "[]",
        "{}",
        kept.read_text().replace("gram", "grain2"),
        kept.read_text().replace("28.349", "29.349"),
        kept.read_text().replace('"sum"', '"sun"'),
        "[" * 100_000,
    ):
        kept.write_text(content)
        assert {u.name: u.factor for u in Units(cache=tmp_path)} == first
