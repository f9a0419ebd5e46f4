"""Common sheets of labels: how many, how large, and where they stand.  Millimetres; common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

A4 = (210.0, 297.0)
LETTER = (215.9, 279.4)
EDGE = 4.5
"""mm at the edge of a page that many printers cannot reach (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """``columns`` by ``rows`` labels of ``width`` by ``height``; the gaps stand between, the rest is margin."""

    name: str
    page: tuple[float, float]
    columns: int
    rows: int
    width: float
    height: float
    gap_x: float = 0.0
    gap_y: float = 0.0

    @property
    def count(self) -> int:
        """Labels on a sheet."""
        return self.columns * self.rows

    @property
    def size(self) -> str:
        """``63.5 × 72 mm``."""
        return f"{self.width:g} × {self.height:g} mm"

    @property
    def inset(self) -> float:
        """What has to stay free within each label, in mm, because the outer ones reach into the printer's edge."""
        left, bottom = min(x for x, _ in self.places()), min(y for _, y in self.places())
        return max(0.0, EDGE - min(left, bottom))

    def places(self) -> Iterator[tuple[float, float]]:
        """The lower left corners of the labels, from the top left of the page; the whole stands in its middle."""
        left = (self.page[0] - self.columns * self.width - (self.columns - 1) * self.gap_x) / 2
        bottom = (self.page[1] - self.rows * self.height - (self.rows - 1) * self.gap_y) / 2
        for row in range(self.rows):
            for column in range(self.columns):
                yield (left + column * (self.width + self.gap_x),
                       bottom + (self.rows - 1 - row) * (self.height + self.gap_y))


SHEETS = (
    Sheet("A4", A4, 1, 1, 199.6, 289.1),
    Sheet("A4", A4, 1, 2, 199.6, 143.5),
    Sheet("A4", A4, 2, 2, 99.1, 139.0, 2.5),
    Sheet("A4", A4, 2, 3, 99.1, 93.1, 2.5),
    Sheet("A4", A4, 2, 4, 99.1, 67.7, 2.5),
    Sheet("A4", A4, 2, 5, 99.1, 57.0, 2.5),
    Sheet("A4", A4, 3, 4, 63.5, 72.0, 2.5),
    Sheet("A4", A4, 2, 7, 99.1, 38.1, 2.5),
    Sheet("A4", A4, 2, 8, 99.1, 33.9, 2.5),
    Sheet("A4", A4, 3, 6, 63.5, 46.6, 2.5),
    Sheet("A4", A4, 3, 7, 63.5, 38.1, 2.5),
    Sheet("A4", A4, 3, 8, 70.0, 37.0),
    Sheet("A4", A4, 4, 10, 48.5, 25.4),
    Sheet("A4", A4, 5, 13, 38.1, 21.2, 2.5),
    Sheet("Letter", LETTER, 2, 3, 101.6, 84.7, 4.8),
    Sheet("Letter", LETTER, 2, 5, 101.6, 50.8, 4.8),
    Sheet("Letter", LETTER, 2, 7, 101.6, 33.9, 4.8),
    Sheet("Letter", LETTER, 2, 10, 101.6, 25.4, 4.8),
    Sheet("Letter", LETTER, 3, 10, 66.7, 25.4, 3.2),
    Sheet("Letter", LETTER, 4, 20, 44.5, 12.7, 7.1),
)
USUAL = {"A4": 12, "Letter": 10}


def sheet_of(count: int | None = None, page: str = "A4") -> Sheet | None:
    """The sheet with so many labels, on a page of that name where there are two; None where there is none."""
    count = USUAL[page] if count is None else count
    fits = [s for s in SHEETS if s.count == count]
    return next((s for s in fits if s.name == page), fits[0] if fits else None)


def counts(page: str = "A4") -> list[int]:
    """How many labels a sheet of that page may have."""
    return sorted(s.count for s in SHEETS if s.name == page)
