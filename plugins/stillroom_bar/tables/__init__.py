"""The bar's trade facts: one CSV file a table, read on first use and kept.

Every file is UTF-8. The first line names the columns; a column that holds numbers carries its
unit in brackets (``density [g/ml]``) and is known by the bare name (``density``). The columns
in ``LISTS`` hold several words in a cell, separated by ``;``. The last column is ``source``,
and no row goes without one. An empty cell is ``None``, or an empty tuple in a list column.
"""

import csv
from functools import cache
from pathlib import Path

Cell = str | float | tuple[str, ...] | None
Row = dict[str, Cell]

LISTS = frozenset({"words", "allergens", "caution"})

_FOLDER = Path(__file__).parent


def names() -> tuple[str, ...]:
    """The tables there are, in alphabetical order."""
    return tuple(sorted(path.stem for path in _FOLDER.glob("*.csv")))


@cache
def load(name: str) -> tuple[Row, ...]:
    """The rows of the table ``name``, in the file's order; cached, so not to be changed.

    Numbers are floats in the unit that ``units`` gives. ValueError names the file, and for a
    bad cell its line and column; it also says so when there is no such table.
    """
    header, lines = _read(name)
    keys = [key for key, _ in header]
    rows = []
    for number, cells in lines:
        if len(cells) != len(header):
            raise ValueError(f"{name}.csv, line {number}: {len(cells)} cells where {len(header)} belong.")
        values = [
            _cell(cell.strip(), key, unit, f"{name}.csv, line {number}, column {key}")
            for cell, (key, unit) in zip(cells, header, strict=True)
        ]
        rows.append(dict(zip(keys, values, strict=True)))
    return tuple(rows)


@cache
def units(name: str) -> dict[str, str]:
    """The unit of each column of numbers in the table ``name``, as its header writes it."""
    return {key: unit for key, unit in _read(name)[0] if unit}


def _read(name: str) -> tuple[list[tuple[str, str]], list[tuple[int, list[str]]]]:
    path = _FOLDER / f"{name}.csv"
    if name not in names():
        raise ValueError(f"There is no table {name}; there are {', '.join(names())}.")
    with path.open(encoding="utf-8", newline="") as file:
        reader = csv.reader(file, strict=True)
        header = [_column(cell) for cell in next(reader, [])]
        lines = [(reader.line_num, cells) for cells in reader]
    keys = [key for key, _ in header]
    if not keys or keys[-1] != "source" or len(set(keys)) != len(keys):
        raise ValueError(f"{name}.csv, line 1: every column needs its own name, and the last is source.")
    return header, lines


def _column(cell: str) -> tuple[str, str]:
    key, _, unit = cell.partition("[")
    return key.strip(), unit.rstrip("] ")


def _cell(cell: str, key: str, unit: str, place: str) -> Cell:
    if key == "source" and not cell:
        raise ValueError(f"{place}: every row says where it comes from.")
    if key in LISTS:
        return tuple(word.strip() for word in cell.split(";") if word.strip())
    if not cell:
        return None
    if not unit:
        return cell
    try:
        number = float(cell)
    except ValueError:
        raise ValueError(f"{place}: {cell!r} is no number.") from None
    if number != number or abs(number) == float("inf"):
        raise ValueError(f"{place}: {cell!r} is no finite number.")
    return number
