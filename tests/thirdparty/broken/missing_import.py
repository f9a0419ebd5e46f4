"""Needs what nobody has."""

import a_module_that_nobody_has  # noqa: F401
