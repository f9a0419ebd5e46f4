"""What water, salt, sugar, spirit, acid and gas do, as plain functions of plain floats.

One substance a module. Everything here is the standard library and arithmetic: no unit
objects, no tables read from disk. The conventions hold throughout:

- strengths (mass fraction, ABV) are fractions from 0 to 1; degrees Brix and volumes of CO2
  keep their own scales, 0 to 100 and 0 upward;
- temperatures are degrees Celsius, densities g/ml, pressures bar (gauge where it says so);
- an argument outside the range that the source covers raises ``ValueError`` with a sentence
  that says what the range is.
"""
