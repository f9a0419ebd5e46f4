"""The kit with which a plugin's author checks any calculator without writing a case.

Only for tests: the kernel never imports it, and it needs hypothesis, which the kernel does not.

    from stillroom import Kernel
    from stillroom.testing import assert_same, check

    def test_tea():
        kernel = Kernel(discover=False)
        kernel.add("teabar", tea)
        assert not check(kernel, "teabar.tea").problems

``check`` draws consistent points from the declaration alone, hides every visible variable in turn
and finds it again, says the same in other units, tries the limits, and looks for what a declaration
should not be without.  ``points``, ``values``, ``rows`` and ``specs`` are the hypothesis strategies it
draws from; ``solve_directions`` lists the (given, hidden) cases; ``assert_same`` compares amounts and ``assert_says``
an answer with ``"12 gram"``.  ``cases`` reads a table of cases, ``examples`` those that calculators declare, and
``assert_case`` tries one.  With pytest, ``kernel``, ``ask``, ``chat`` and ``telegram`` are fixtures
(``stillroom_bot.testing``).
"""

from .asserting import assert_same, assert_says
from .cases import Case, assert_case, cases, examples
from .checks import Problem, Report, check
from .directions import Direction, solve_directions
from .drawing import Point, points, rows, specs, values

__all__ = [
    "Case", "Direction", "Point", "Problem", "Report", "assert_case", "assert_same", "assert_says", "cases", "check",
    "examples", "points", "rows", "solve_directions", "specs", "values",
]
