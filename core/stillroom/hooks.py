"""The contract between the kernel and a plugin: five hooks, each optional.

A plugin is a module (or any object) whose functions carry ``@stillroom.hookimpl``; the entry-point
group is ``stillroom``.  An entry point may also name a bare ``Calculator``.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import pluggy

if TYPE_CHECKING:
    from .declare import Calculator
    from .messages import Answer, Request

hookspec = pluggy.HookspecMarker("stillroom")
hookimpl = pluggy.HookimplMarker("stillroom")


class Hooks:
    """Signatures of the hooks.  All are called once when the plugin is loaded, but ``stillroom_cautions``."""

    @hookspec
    def stillroom_calculators(self) -> Iterable[Calculator]:  # type: ignore[empty-body]
        """The calculators that the plugin offers.

        Returns any number of ``Calculator``; each is checked alone, and one that is wrong is named
        and left out.  Since 0.1.
        """

    @hookspec
    def stillroom_units(self) -> Sequence[Mapping[str, str]]:  # type: ignore[empty-body]
        """Units that the kernel does not have.

        Returns rows with ``name``, ``definition`` (pint's syntax, on known units), ``words`` (spellings
        separated by ``;``), and optionally ``kind``, ``symbol``, ``system``, ``state``, ``adjustable`` (``yes`` if a
        chat may resize it), ``note`` (what an answer that uses it should state).  A row without a
        definition is a measure without a size (a splash): it is asked for.  Since 0.1.
        """

    @hookspec
    def stillroom_substances(self) -> Sequence[Mapping[str, Any]]:  # type: ignore[empty-body]
        """Things that are poured, weighed or counted.

        Returns rows with ``id``, ``words`` (a tuple or ``;``-separated), ``state`` (``liquid``, ``dry`` or ``piece``),
        ``kind`` (tags that variables name in ``things``), numbers such as ``density``, ``abv``, ``sugar``,
        ``acid``, ``allergens``, and ``source``.  Since 0.1.
        """

    @hookspec
    def stillroom_refusals(self) -> Sequence[Mapping[str, Any]]:  # type: ignore[empty-body]
        """Subjects that are never answered.

        Returns rows with ``words`` (patterns separated by ``;``; in one, all words joined by ``+`` must
        occur; of words joined by ``|`` one is enough), optionally ``unless`` (words that make it harmless
        where no ``not`` stands before them), and ``reason``.  Since 0.1.
        """

    @hookspec
    def stillroom_cautions(self, request: Request, answer: Answer) -> Iterable[str]:  # type: ignore[empty-body]
        """Cautions that an answer must carry.

        ``request`` is what was asked and ``answer`` what was found.  Returns sentences; those already
        there are not repeated.  Called for every answer of every calculator.  Since 0.1.
        """
