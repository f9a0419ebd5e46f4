"""What the functions promise of themselves: ways back, order, ranges, and what they need to run."""

import itertools
import subprocess
import sys

import pytest
from stillroom_bar.physics import (
    acids,
    brine,
    co2,
    curve,
    ethanol,
    heat,
    n2o,
    refractometer,
    solutions,
    sucrose,
    water,
)

HUNDREDTHS = [i / 100 for i in range(101)]


def test_abv_and_mass_fraction_undo_each_other() -> None:
    for i in range(0, 1001):
        q = i / 1000
        assert ethanol.abv(ethanol.mass_fraction(q)) == pytest.approx(q, abs=1e-11)
        assert ethanol.mass_fraction(ethanol.abv(q)) == pytest.approx(q, abs=1e-11)


def test_ways_back_along_the_tables() -> None:
    for i in range(0, 27):
        assert brine.mass_fraction(brine.density(i / 100)) == pytest.approx(i / 100, abs=1e-9)
    for i in range(0, 91, 5):
        for t in (0, 20, 45, 80):
            assert sucrose.mass_fraction(sucrose.density(i / 100, t), t) == pytest.approx(i / 100, abs=1e-9)
    for i in range(0, 81):
        assert refractometer.brix(refractometer.refractive_index(i)) == pytest.approx(i, abs=1e-8)
    for v in (0.5, 2.5, 4.0):
        assert co2.volumes_at(co2.gauge_pressure(v, 4), 4) == pytest.approx(v)
        assert co2.volumes(co2.grams_per_litre(v)) == pytest.approx(v)


RISING = [
    (brine.density, [i / 1000 for i in range(265)]),
    (brine.solubility, range(101)),
    (sucrose.density, [i / 100 for i in range(91)]),
    (sucrose.solubility, range(101)),
    (refractometer.refractive_index, range(81)),
    (ethanol.abv, HUNDREDTHS),
    (ethanol.mass_fraction, HUNDREDTHS),
]
FALLING = [
    (ethanol.density, HUNDREDTHS),
    (ethanol.freezing_point, HUNDREDTHS),
    (brine.freezing_point, [i / 1000 for i in range(234)]),
    (water.density, range(4, 101)),
    (co2.solubility, range(-1, 41)),
    (n2o.solubility, range(-1, 41)),
]


@pytest.mark.parametrize(("function", "points"), RISING, ids=lambda x: getattr(x, "__name__", ""))
def test_rises(function, points) -> None:
    values = [function(x) for x in points]
    assert all(a < b for a, b in itertools.pairwise(values))


@pytest.mark.parametrize(("function", "points"), FALLING, ids=lambda x: getattr(x, "__name__", ""))
def test_falls(function, points) -> None:
    values = [function(x) for x in points]
    assert all(a > b for a, b in itertools.pairwise(values))


OUTSIDE = [
    (water.density, (101,)), (brine.density, (0.3,)), (brine.density, (-0.01,)), (brine.freezing_point,
    (0.25,)),
    (brine.solubility, (-5,)), (brine.mass_fraction, (1.3,)), (sucrose.density, (0.95,)),
    (sucrose.density, (0.5, 90)),
    (sucrose.mass_fraction, (0.9,)), (refractometer.brix, (1.6,)), (refractometer.temperature_correction,
    (20, 35)),
    (refractometer.temperature_correction, (80, 20)), (refractometer.acid_correction, (-1,)),
    (ethanol.density, (1.1,)), (ethanol.density, (0.4, 60)), (ethanol.mass_fraction, (40,)), (ethanol.abv,
    (-0.1,)),
    (ethanol.freezing_point, (2,)), (co2.solubility, (60,)), (co2.gauge_pressure, (-1, 4)),
    (co2.volumes_at, (-2, 4)),
    (n2o.solubility, (50,)), (n2o.shaken_pressure, (8, 0.5, 0, 4)), (n2o.charged_pressure, (8, -1, 4)),
    (heat.specific_heat, (0.7,)), (heat.to_melt, (5,)), (heat.ice_melted, (-1, 20)),
    (solutions.density, ("citric", 0.5)), (solutions.density, ("tartaric", 0.1)), (acids.ph,
    ([("citric", -1)],)),
    (acids.ph, ([("battery", 1)],)),
]  # fmt: skip


@pytest.mark.parametrize(("function", "arguments"), OUTSIDE)
def test_outside_its_range_it_says_so_in_a_sentence(function, arguments) -> None:
    with pytest.raises(ValueError) as refused:
        function(*arguments)
    sentence = str(refused.value)
    assert sentence[0].isupper() and sentence.endswith(".") and len(sentence.split()) > 4


def test_not_a_number_is_refused() -> None:
    for function in (brine.density, sucrose.density, ethanol.mass_fraction, co2.solubility):
        with pytest.raises(ValueError):
            function(float("nan"))


def test_a_curve_goes_through_its_points_and_never_overshoots() -> None:
    xs, ys = (0, 1, 2, 3, 4, 5), (0, 0, 0, 1, 1, 1)
    step = curve.through(xs, ys)
    assert [step(x) for x in xs] == list(ys)
    assert all(0 <= step(i / 50) <= 1 for i in range(251))
    line = curve.through((0, 1, 3), (1, 3, 7))
    assert line(2.2) == pytest.approx(5.4)
    with pytest.raises(ValueError):
        curve.through((0, 1, 1), (0, 1, 2))
    with pytest.raises(ValueError):
        curve.inverse(line, 9, 0, 3)


# Ideal pH of plain solutions from their pKa, each by the quadratic for the first proton alone.
@pytest.mark.parametrize(
    ("name", "molar_mass", "pka"),
    [("citric", 192.124, 3.13), ("malic", 134.087, 3.40), ("lactic", 90.078, 3.86), ("acetic", 60.052, 4.76)],
)
def test_ph_of_one_acid(name: str, molar_mass: float, pka: float) -> None:
    k, c = 10**-pka, 10 / molar_mass
    hydrogen = (-k + (k * k + 4 * k * c) ** 0.5) / 2
    assert 10 ** -acids.ph([(name, 10)]) == pytest.approx(hydrogen, rel=0.02)


def test_ph_of_phosphoric_acid() -> None:
    """0.01 mol/kg has pH 2.27 by phreeqc.dat, with activities, which this leaves out."""
    assert acids.ph([("phosphoric", 0.97995)]) == pytest.approx(2.27, abs=0.03)


def test_ph_falls_with_every_acid_added() -> None:
    assert acids.ph([]) == pytest.approx(7)
    assert acids.ph([("citric", 40)]) > acids.ph([("citric", 40), ("malic", 20)]) > acids.ph([("citric", 90)])


# geraldmcdonald.com, fruit juice acid conversions: grams equal to one gram of citric acid.
@pytest.mark.parametrize(
    ("name", "grams"), [("citric monohydrate", 1.094), ("malic", 1.047), ("tartaric", 1.172)]
)
def test_acids_as_citric(name: str, grams: float) -> None:
    assert acids.as_citric(name) == pytest.approx(grams, abs=0.0006)


# OIV practice: total acidity as tartaric times 0.6535 gives it as sulphuric acid (98.078 g/mol, two groups).
def test_tartaric_as_sulphuric() -> None:
    assert 98.078 / 2 / acids.acid("tartaric").equivalent == pytest.approx(0.6535, abs=0.0001)


# Milliequivalent factors of AOAC titrations, grams of acid to a millimole of alkali, from memory.
@pytest.mark.parametrize(
    ("name", "factor"),
    [("citric", 0.064), ("malic", 0.067), ("tartaric", 0.075), ("lactic", 0.090), ("acetic", 0.060)],
)
def test_milliequivalents(name: str, factor: float) -> None:
    assert acids.acid(name).equivalent / 1000 == pytest.approx(factor, abs=0.0005)


def test_gas_laws_hold() -> None:
    assert n2o.shaken_pressure(8, 0.5, 0.25, 4) < n2o.charged_pressure(8, 0.25, 4)
    assert n2o.shaken_pressure(8, 0, 0.25, 4) == pytest.approx(n2o.charged_pressure(8, 0.25, 4))
    assert n2o.shaken_pressure(16, 0.5, 0.25, 4) == pytest.approx(2 * n2o.shaken_pressure(8, 0.5, 0.25, 4))
    assert co2.gauge_pressure(co2.volumes_per_atm(10), 10) == pytest.approx(0, abs=1e-12)


def test_the_standard_library_is_all_they_need() -> None:
    """In a fresh interpreter, without site packages: nothing but the standard library can be there."""
    from stillroom_bar import physics

    folder = str(__import__("pathlib").Path(physics.__file__).parents[2])
    modules = "acids brine co2 curve ethanol heat n2o refractometer solutions sucrose water"
    code = (
        f"import sys; sys.path.insert(0, {folder!r}); import types\n"
        f"bar = types.ModuleType('stillroom_bar'); bar.__path__ = [{folder + '/stillroom_bar'!r}]\n"
        "sys.modules['stillroom_bar'] = bar\n"
        f"for name in {modules!r}.split(): __import__('stillroom_bar.physics.' + name)\n"
        "print('typing' in sys.modules, 're' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-I", "-S", "-c", code], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.split() == ["False", "False"]
