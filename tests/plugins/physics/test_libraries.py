"""The functions against general reference libraries, each computed here and now."""

import sys
from importlib.util import find_spec
from types import ModuleType

import pytest
from stillroom_bar import tables
from stillroom_bar.physics import acids, brine, co2, ethanol, heat, n2o, water

AT_20 = 293.15
ATM = 101325


@pytest.fixture(scope="module")
def props():
    """CoolProp's incompressible solutions and equations of state."""
    return pytest.importorskip("CoolProp.CoolProp").PropsSI


@pytest.fixture(scope="module")
def weight():
    """Molar mass from a formula, by molmass (IUPAC atomic weights)."""
    formula = pytest.importorskip("molmass").Formula
    return lambda text: formula(text).mass


@pytest.fixture(scope="module")
def aquasol():
    """aquasol, which asks for matplotlib on import though only its plots use it."""
    with pytest.MonkeyPatch.context() as patch:
        if find_spec("matplotlib") is None:
            plots = ModuleType("matplotlib")
            plots.pyplot = ModuleType("matplotlib.pyplot")  # type: ignore[attr-defined]
            patch.setitem(sys.modules, "matplotlib", plots)
            patch.setitem(sys.modules, "matplotlib.pyplot", plots.pyplot)
        yield pytest.importorskip("aquasol.solutions")


@pytest.mark.parametrize("percent", range(5, 61, 5))
def test_ethanol_density_by_coolprop(props, percent: int) -> None:
    p = percent / 100
    expected = props("D", "T", AT_20, "P", ATM, f"INCOMP::MEA[{p}]") / 1000
    assert ethanol.density(p) == pytest.approx(expected, rel=4e-4)


@pytest.mark.parametrize("percent", range(1, 24))
def test_brine_density_by_coolprop(props, percent: int) -> None:
    w = percent / 100
    expected = props("D", "T", AT_20, "P", ATM, f"INCOMP::MNA[{w}]") / 1000
    assert brine.density(w) == pytest.approx(expected, rel=4e-4)


@pytest.mark.parametrize("percent", [1, 3, 5, 8, 10, 12, 14, 16, 18, 20, 22])
def test_brine_freezing_by_coolprop(props, percent: int) -> None:
    w = percent / 100
    expected = props("T_freeze", "T", AT_20, "P", ATM, f"INCOMP::MNA[{w}]") - 273.15
    assert brine.freezing_point(w) == pytest.approx(expected, abs=0.12)


@pytest.mark.parametrize("t", [1, 5, 10, 20, 30, 40, 60, 80, 99])
def test_water_density_by_coolprop(props, t: int) -> None:
    assert water.density(t) == pytest.approx(props("D", "T", t + 273.15, "P", ATM, "Water") / 1000, rel=3e-5)


@pytest.mark.parametrize("percent", [10, 20, 40])
def test_specific_heat_by_coolprop(props, percent: int) -> None:
    p = ethanol.mass_fraction(percent / 100)
    expected = props("C", "T", AT_20, "P", ATM, f"INCOMP::MEA[{p}]") / 1000
    assert heat.specific_heat(p) == pytest.approx(expected, rel=0.002)


def test_a_volume_of_co2_by_coolprop(props) -> None:
    density = props("D", "T", 273.15, "P", ATM, "CO2")
    assert pytest.approx(density, rel=3e-4) == co2.GRAMS_PER_VOLUME


@pytest.mark.parametrize("w", [0.01, 0.03, 0.07, 0.09, 0.13, 0.17, 0.21, 0.25])
def test_brine_density_by_aquasol(aquasol, w: float) -> None:
    expected = float(aquasol.density(solute="NaCl", T=20, unit="C", source="Al Ghafri", w=w))
    assert brine.density(w) == pytest.approx(expected / 1000, rel=5e-4)


@pytest.mark.parametrize("t", [5, 10, 20, 30, 40, 50])
def test_salt_solubility_by_aquasol(aquasol, t: int) -> None:
    expected = float(aquasol.solubility(crystal="NaCl", T=t, unit="C", out="w"))
    assert brine.solubility(t) == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize("t", [-1, -5, -10, -18, -25, -40])
def test_heat_of_ice_by_iapws(t: int) -> None:
    ice = pytest.importorskip("iapws._iapws")._Ice
    sensible = ice(273.15, 0.101325)["h"] - ice(273.15 + t, 0.101325)["h"]
    assert heat.to_melt(t) - heat.to_melt(0) == pytest.approx(sensible, rel=0.002)
    assert ice(273.15, 0.101325)["rho"] / 1000 == pytest.approx(heat.ICE_DENSITY, rel=1e-4)
    assert ice(273.15, 0.101325)["cp"] == pytest.approx(heat.ICE, rel=1e-3)


def test_latent_heat_by_iapws_and_chemicals() -> None:
    iapws = pytest.importorskip("iapws")
    liquid = iapws.IAPWS95(T=273.16, x=0).h
    solid = iapws._iapws._Ice(273.15, 0.101325)["h"]
    assert pytest.approx(liquid - solid, abs=0.15) == heat.LATENT
    hfus = pytest.importorskip("chemicals.phase_change").Hfus("7732-18-5")
    assert pytest.approx(hfus / 18.01528, rel=2e-3) == heat.LATENT


@pytest.mark.parametrize("t", [10, 15, 20, 25, 30])
def test_co2_solubility_by_iapws(t: int) -> None:
    """Henry constants of IAPWS G7-04, which lies 1 to 2 % under Weiss from 10 °C up."""
    henry = pytest.importorskip("iapws._iapws")._Henry(t + 273.15, "CO2")
    molality = 0.101325 / henry * 55.508
    assert co2.solubility(t) == pytest.approx(molality * water.density(t), rel=0.03)


FORMULAS = [
    ("citric", "C6H8O7", "77-92-9"), ("citric monohydrate", "C6H8O7H2O", "5949-29-1"),
    ("malic", "C4H6O5", "6915-15-7"), ("tartaric", "C4H6O6", "87-69-4"), ("lactic", "C3H6O3", "50-21-5"),
    ("acetic", "C2H4O2", "64-19-7"), ("ascorbic", "C6H8O6", "50-81-7"), ("phosphoric", "H3PO4", "7664-38-2"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "formula", "cas"), FORMULAS)
def test_molar_masses_of_acids(weight, name: str, formula: str, cas: str) -> None:
    assert acids.acid(name).molar_mass == pytest.approx(weight(formula), rel=3e-5)
    if name != "citric monohydrate":
        assert acids.acid(name).molar_mass == pytest.approx(
            pytest.importorskip("chemicals").MW(cas), rel=3e-5
        )


def test_molar_masses_of_gases_and_salt(weight) -> None:
    assert pytest.approx(weight("CO2"), rel=3e-5) == co2.MOLAR_MASS
    assert pytest.approx(weight("N2O"), rel=3e-5) == n2o.MOLAR_MASS
    assert pytest.approx(weight("Na") / weight("NaCl"), rel=3e-4) == brine.SODIUM_SHARE


def test_sugar_in_hydrated_powders(weight) -> None:
    sugar = {row["id"]: row["sugar"] for row in tables.load("sweeteners")}
    assert sugar["dextrose"] == pytest.approx(100 * weight("C6H12O6") / weight("C6H12O6H2O"), abs=0.05)
    assert sugar["trehalose"] == pytest.approx(100 * weight("C12H22O11") / weight("C12H26O13"), abs=0.05)


def test_grams_of_alcohol_in_a_us_standard_drink() -> None:
    """NIAAA: 14 g in 0.6 US fluid ounces of alcohol."""
    assert pytest.approx(14, abs=0.05) == 0.6 * 29.5735295625 * ethanol.DENSITY
