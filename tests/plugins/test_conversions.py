"""Conversions: in every direction and against published unit definitions and densities."""

import pytest

from .directions import ask, every_direction, kernel, number

DIMENSIONS = ["volume", "weight", "pressure", "temperature", "time", "spirit_strength", "content", "energy"]


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_every_unit_converts_into_every_other_and_back(dimension):
    k = kernel()
    model = k.model(f"bar.convert_{dimension}")
    own = model.unit["amount"]
    units = {own.name, *(u.name for u in k.units if u.sized and u.dimension == own.dimension and u.kind == own.kind)}
    for unit in sorted(units):
        value = number(f"convert_{dimension}", {"amount": (7, unit)}, "result")
        back = number(f"convert_{dimension}", {"result": (value, own.name)}, "amount", unit)
        assert back == pytest.approx(7, rel=1e-12)


@pytest.mark.parametrize(
    ("calculator", "given", "choices"),
    [
        ("weight_of_volume", {"volume": (500, "milliliter")}, {"thing": "milk"}),
        ("density", {"mass": (252, "gram"), "volume": (250, "milliliter")}, {}),
        (
            "spirit_weight",
            {"abv": (40, "abv"), "volume": (5, "liter"), "temperature": (25, "degree_Celsius")},
            {},
        ),
        ("household", {"measure": (1.5, "cup")}, {"thing": "granulated-sugar"}),
        ("pieces", {"pieces": (6, "count")}, {"thing": "egg-white"}),
    ],
)
def test_every_direction(calculator, given, choices):
    skip = {"household": ("heap",), "pieces": ("each",)}.get(calculator, ())
    every_direction(calculator, given, skip, **choices)


@pytest.mark.parametrize(
    ("calculator", "value", "unit", "to", "expected"),
    [
        # NIST Handbook 44, Appendix C
        ("convert_volume", 1, "fluid_ounce", "milliliter", 29.5735295625),
        ("convert_volume", 1, "cup", "fluid_ounce", 8),
        ("convert_volume", 1, "gallon", "liter", 3.785411784),
        ("convert_volume", 1, "tablespoon", "teaspoon", 3),
        ("convert_weight", 1, "pound", "ounce", 16),
        ("convert_weight", 1, "ounce", "gram", 28.349523125),
        # UK Weights and Measures Act 1985, Sch. 1: gallon 4.54609 l
        ("convert_volume", 1, "imperial_gallon", "liter", 4.54609),
        ("convert_volume", 1, "imperial_pint", "imperial_fluid_ounce", 20),
        # NIST SP 811, Appendix B
        ("convert_pressure", 1, "psi", "kilopascal", 6.894757),
        ("convert_pressure", 1, "atmosphere", "psi", 14.69595),
        ("convert_temperature", 38, "degree_Fahrenheit", "degree_Celsius", 3.3333333),
        ("convert_temperature", -40, "degree_Celsius", "degree_Fahrenheit", -40),
        # 27 CFR 5.1: proof is twice the percent of alcohol by volume
        ("convert_spirit_strength", 151, "proof", "abv", 75.5),
        # common practice, no source
        ("convert_volume", 1, "barspoon", "dash", 6.25),
        ("convert_volume", 2, "dash", "drop", 32),
        ("convert_content", 15, "percent_wv", "gram / liter", 150),
    ],
)
def test_published_units(calculator, value, unit, to, expected):
    assert number(calculator, {"amount": (value, unit)}, "result", to) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(
    "name",
    [
        "fluid_ounce",
        "cup",
        "pint",
        "quart",
        "gallon",
        "tablespoon",
        "teaspoon",
        "imperial_fluid_ounce",
        "imperial_pint",
        "imperial_gallon",
        "fluid_dram",
    ],
)
def test_volumes_against_pint(name):
    """Pint's own registry, which takes them from NIST and the UK act."""
    pint = pytest.importorskip("pint")
    registry = pint.UnitRegistry()
    theirs = registry.Quantity(1, name).to("milliliter").magnitude
    assert number("convert_volume", {"amount": (1, name)}, "result", "milliliter") == pytest.approx(
        theirs, rel=1e-12
    )


@pytest.mark.parametrize(("name", "constant"), [("psi", "psi"), ("atmosphere", "atm"), ("bar", "bar")])
def test_pressures_against_scipy(name, constant):
    """scipy.constants (CODATA and NIST SP 811)."""
    constants = pytest.importorskip("scipy.constants")
    found = number("convert_pressure", {"amount": (1, name)}, "result", "pascal")
    assert found == pytest.approx(getattr(constants, constant), rel=1e-9)


def test_no_strength_above_pure():
    answer = ask("convert_spirit_strength", {"amount": (230, "proof")})
    assert answer.status == "declined"
    assert "100 %" in answer.reason


@pytest.mark.parametrize(
    ("thing", "grams_a_litre", "source"),
    [
        ("milk", 1030, "FAO/INFOODS Density Database 2.0"),
        ("honey", 339 / 0.2365882365, "USDA: 339 g a cup"),
        ("olive-oil", 918, "FAO/INFOODS Density Database 2.0"),
    ],
)
def test_weight_of_a_litre(thing, grams_a_litre, source):
    assert number("weight_of_volume", {"volume": (1, "liter")}, "mass", thing=thing) == pytest.approx(
        grams_a_litre, rel=3e-3
    )


def test_a_thing_without_a_name_or_density_is_asked_for():
    assert ask("weight_of_volume", {"volume": (500, "milliliter")}, "mass").status == "asks"
    syrup = ask("syrup", {"mass": (200, "gram")}, "volume")
    assert syrup.status == "asks"
    assert syrup.missing == (("style",),) and syrup.choices == ("simple", "rich")


@pytest.mark.parametrize(("brix", "density"), [(10, 1.0381), (30, 1.1270), (50, 1.2295), (60, 1.2864)])
def test_syrup_density(brix, density):
    """CRC Handbook, density of sucrose solutions at 20 °C."""
    assert number("syrup", {"brix": (brix, "brix")}, "density") == pytest.approx(density, rel=3e-4)
    found = number("syrup", {"density": (density, "gram / milliliter")}, "brix")
    assert found == pytest.approx(brix, abs=0.1)


@pytest.mark.parametrize(("ratio", "brix"), [(1, 50), (1.5, 60), (2, 66.6667)])
def test_syrup_ratio(ratio, brix):
    assert number("syrup", {"ratio": (ratio, "dimensionless")}, "brix") == pytest.approx(brix)
    assert number("syrup", {"brix": (brix, "brix")}, "ratio") == pytest.approx(ratio, rel=1e-5)


@pytest.mark.parametrize(("abv", "density"), [(10, 0.984710), (40, 0.948045), (50, 0.930142), (96, 0.807420)])
def test_spirit(abv, density):
    """OIML R 22, alcoholometric tables at 20 °C."""
    assert number("spirit_weight", {"abv": (abv, "abv")}, "density") == pytest.approx(density, abs=2e-6)
    found = number("spirit_weight", {"density": (density, "gram / milliliter")}, "abv")
    assert found == pytest.approx(abv, abs=3e-3)


@pytest.mark.parametrize(("t", "density"), [(-10, 0.96641), (0, 0.96063), (10, 0.95452), (30, 0.94119)])
def test_spirit_by_temperature(t, density):
    """OIML R 22: a spirit of 40 % vol (at 20 °C), its density at other temperatures."""
    given = {"abv": (40, "abv"), "temperature": (t, "degree_Celsius")}
    assert number("spirit_weight", given, "density") == pytest.approx(density, abs=1e-5)


def test_household_weights():
    """USDA household weights: cup of granulated sugar 200 g, teaspoon of table salt 6 g, egg white 34 g."""
    assert number("household", {"measure": (1.5, "cup")}, "mass", thing="granulated-sugar") == pytest.approx(
        300, rel=1e-6
    )
    assert number("household", {"measure": (1, "teaspoon")}, "mass", thing="table-salt") == pytest.approx(
        6, rel=1e-6
    )
    assert number("pieces", {"pieces": (6, "count")}, "mass", thing="egg-white") == pytest.approx(204)
    spooned = ask("household", {"measure": (1, "cup")}, thing="granulated-sugar")
    assert any("weigh it" in text for text in spooned.cautions)
    assert any("200 g" in text for text in spooned.assumptions)


def test_poured_things_have_no_household_heap():
    rows = kernel().model("bar.household").choices["thing"].rows
    assert "honey" not in rows and "granulated-sugar" in rows
