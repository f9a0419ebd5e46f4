"""The bar's calculators, their tables and the physical functions that they stand on."""
