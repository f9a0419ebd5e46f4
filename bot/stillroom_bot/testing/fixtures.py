"""The pytest plugin: fixtures for whoever tests a calculator.

``plugins`` says what is tested: by default, whatever the ``pyproject.toml`` beside the tests offers as entry points of
the group ``stillroom``.  Override it to name something else:

    @pytest.fixture(scope="session")
    def plugins():
        return {"teabar": teabar.tea}

This module imports nothing heavy: pytest loads it in every project whose environment has Stillroom.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from stillroom import Kernel

    from ..conversation import Conversation
    from . import FakeChat, FakeTelegram


def declared(project: Path) -> dict[str, Any]:
    """The plugins that a ``pyproject.toml`` offers, imported, by name; none where there is no such file.

    Raises what their import raises, and AttributeError for an object that a module has not.
    """
    import tomllib
    from importlib.metadata import EntryPoint

    if not project.is_file():
        return {}
    points = tomllib.loads(project.read_text("utf-8")).get("project", {}).get("entry-points", {}).get("stillroom", {})
    return {name: EntryPoint(name, value, "stillroom").load() for name, value in points.items()}


@pytest.fixture(scope="session")
def plugins(request: pytest.FixtureRequest) -> Mapping[str, Any]:
    """What is tested, by the plugin's name; override it where that is not what ``pyproject.toml`` says."""
    return declared(request.config.rootpath / "pyproject.toml")


@pytest.fixture(scope="module")
def kernel(plugins: Mapping[str, Any]) -> Kernel:
    """A kernel with these plugins and no other.  A plugin with errors fails the test that asks for it."""
    from stillroom import Kernel

    made = Kernel(discover=False)
    wrong = [e for name, thing in plugins.items() for e in made.add(name, thing).errors]
    if wrong or not plugins:
        pytest.fail("\n".join(wrong) or "No plugin is offered by pyproject.toml: override the fixture 'plugins'.")
    return made


@pytest.fixture(scope="module")
def conversation(kernel: Kernel) -> Conversation:
    """The conversation that any front end has, over ``kernel``."""
    from ..conversation import Conversation

    return Conversation(kernel)


@pytest.fixture(scope="module")
def ask(conversation: Conversation) -> Callable[[str], dict[str, Any]]:
    """``ask("how much tea for 1.5 l?")`` gives the JSON answer to one question; each is asked for itself."""
    return lambda question: conversation.answer(question)[0].to_json()


@pytest.fixture
def chat(conversation: Conversation) -> FakeChat:
    """A conversation from its beginning: ``chat.say(...)`` gives the reply, and the next message goes on from it."""
    from .chat import FakeChat

    return FakeChat(conversation)


@pytest.fixture
def telegram(conversation: Conversation, tmp_path: Path) -> Iterator[FakeTelegram]:
    """The Telegram bot with a server of its own: ``telegram.say(...)`` and ``telegram.press(told, label)``."""
    from .telegram import FakeTelegram

    with FakeTelegram(conversation, tmp_path) as running:
        yield running
