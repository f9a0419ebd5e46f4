"""What the expectations of the conversations of corpus part I are computed with: see ``physics_i``."""

import physics_i

__all__ = list(physics_i.__all__)


def __getattr__(name: str) -> object:
    """Whatever ``physics_i`` exports, by the same name."""
    return getattr(physics_i, name)
