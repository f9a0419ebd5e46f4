"""Stillroom's kernel: it knows units and equations, no bar and no chat.

A calculator is a declaration: variables with units and bounds, and equations that are true of
them.  Which variable is asked for is not part of it.  The kernel checks a declaration when its
plugin is loaded (``model``), works out in which order the unknowns can be found
(``structure``, ``planner``), brings each block of equations to closed forms or bounded searches
(``isolate`` where looking is enough, else ``derive``, the only file that knows sympy), keeps that as
a plan (``plan``, ``solver``) and runs it on numbers.  Whatever comes out has been put back into every equation.

    Request -> answering -> planner, solver -> Answer

``units`` is the only file that knows pint.  ``plugins`` and ``hooks`` are the door through which
every calculator comes in, our own included.
"""

from .declare import Calculator, Function, Lines, Row, choice, include, limit, var, whole
from .errors import StillroomError
from .hooks import hookimpl
from .kernel import Kernel
from .messages import Amount, Answer, Line, Request, Value

__all__ = [
    "Amount", "Answer", "Calculator", "Function", "Kernel", "Line", "Lines", "Request", "Row", "StillroomError",
    "Value", "choice", "hookimpl", "include", "limit", "var", "whole",
]
