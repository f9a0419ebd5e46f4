"""Questions, groups, commands, topics and long answers, over the wire."""

from __future__ import annotations

import pytest
from botapi import FakeBotApi
from stillroom import Calculator, Kernel, hookimpl, var
from stillroom_bot.store import Store
from stillroom_bot.telegram.application import App
from stillroom_bot.telegram.commands import COMMANDS
from stillroom_bot.telegram.handlers import ALLOWED

NAME = "@loopback_bot"


async def test_a_private_text_is_a_question_and_its_number_stands_in_bold_on_the_first_line(
        api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say('250 ml of <b>"milk" & honey</b>')
    reply = await chat.next_reply()
    assert reply.text == '250 ml\nheard: 250 ml of <b>"milk" & honey</b>'
    assert reply.marked("bold") == ["250 ml"]
    assert reply.answers == said.message_id
    assert reply.message["link_preview_options"]["is_disabled"]
    await chat.say("double")
    assert (await chat.next_reply()).marked("bold") == ["500 ml"]


async def test_reckoning_is_done_by_one_thread_beside_the_loop(api: FakeBotApi, start, parrot) -> None:
    talker = parrot()
    async with start(talker):
        chats = [api.private(api.user(name)) for name in ("Mara", "Jo", "Ines")]
        for chat in chats:
            await chat.say("10 ml")
        for chat in chats:
            await chat.next_reply()
    assert len(talker.threads) == 1 and next(iter(talker.threads)).startswith("reckoning")


@pytest.mark.parametrize(("text", "heard"), [
    (f"{NAME} 5 ml", "5 ml"),
    (f"5 ml {NAME.upper()}, please", "5 ml please"),
    ("/ask 5 ml", "5 ml"),
    (f"/ask{NAME} 5 ml", "5 ml"),
])
async def test_a_group_is_answered_when_it_addresses_the_bot(api: FakeBotApi, bot: App, text: str, heard: str) -> None:
    crew = api.group("Crew", api.user("Mara"))
    said = await crew.say(text)
    reply = await crew.next_reply()
    assert (reply.text, reply.answers) == (f"5 ml\nheard: {heard}", said.message_id)


@pytest.mark.parametrize("text", [
    "5 ml", "@loopback_bots 5 ml", "mail me@loopback_bot.example 5 ml", "@another_bot 5 ml", "/nonsense 5 ml",
    "/ask@another_bot 5 ml", "/asking 5 ml",
])
async def test_a_group_is_left_alone_otherwise(api: FakeBotApi, bot: App, text: str) -> None:
    api.world.privacy = False
    crew = api.group("Crew", api.user("Mara"), api.user("Jo"))
    assert (await crew.say(text)).update_id is not None
    await api.drained()
    await crew.silence(0.1)


async def test_a_group_goes_on_by_replying_and_topics_are_apart(api: FakeBotApi, bot: App) -> None:
    mara, jo = api.user("Mara"), api.user("Jo")
    crew = api.group("Crew", mara, jo, forum=True)
    await crew.say(f"{NAME} 40 ml", by=mara, thread=3)
    first = await crew.next_reply()
    assert first.thread == 3
    await crew.say("double", by=jo, reply_to=first, thread=3)
    assert (await crew.next_reply()).marked("bold") == ["80 ml"]
    await crew.say(f"{NAME} double", by=jo, thread=4)
    assert (await crew.next_reply()).text.startswith("I cannot read that.")


@pytest.mark.parametrize("command", [c.name for c in COMMANDS])
async def test_every_command_answers(api: FakeBotApi, bot: App, command: str) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say(f"/{command}")
    reply = await chat.next_reply()
    assert len(reply.marked("bold")) == 1 and reply.text.startswith(reply.marked("bold")[0])


async def test_commands_are_announced_and_only_handled_kinds_of_update_are_asked_for(
        api: FakeBotApi, bot: App) -> None:
    listed = [row["command"] for row in (await api.wait_calls("setMyCommands"))[0].params["commands"]]
    assert listed == [c.name for c in COMMANDS] + ["ask"]
    await api.wait_until(lambda: bool(api.calls_of("getUpdates")))
    assert api.calls_of("getUpdates")[-1].params["allowed_updates"] == list(ALLOWED)


async def test_examples_come_from_all_over_the_calculators(api: FakeBotApi, start, parrot) -> None:
    twice = [Calculator(f"twice_{n}", "Twice", var("a", "gram"), var("b", "gram"), equations=["a = 2 * b"],
                        example=(f"example {n}", "2 gram")) for n in range(10)]

    class Plugin:
        @hookimpl
        def stillroom_calculators(self) -> list[Calculator]:
            return twice

    talker = parrot()
    talker.kernel = Kernel(discover=False)
    assert talker.kernel.add("many", Plugin()).errors == []
    chat = api.private(api.user("Mara"))
    async with start(talker):
        for command, found in (("/start", 4), ("/calculators", 10)):
            await chat.say(command)
            listed = [x for x in (await chat.next_reply()).text.split("\n") if x.startswith("• example ")]
            assert len(listed) == found and int(listed[-1].split()[-1]) == 9
        await chat.say("/start many-twice_7")
        assert "• example 7" in (await chat.next_reply()).text.split("\n")


async def test_settings_are_shown_and_forgotten(api: FakeBotApi, bot: App, store: Store) -> None:
    chat = api.private(api.user("Mara"))
    for text in ("our dash is 0.6", "/settings"):
        await chat.say(text)
    assert (await chat.next_reply()).text == "Noted."
    assert "dash: 0.6" in (await chat.next_reply()).text
    await chat.say("/forget")
    assert (await chat.next_reply()).text.startswith("Forgotten")
    assert (await store.chats.get(f"telegram:{chat.id}")).version == 0
    await chat.say("dash?")
    assert (await chat.next_reply()).text == "0.8 ml"


async def test_why_shows_the_working_of_the_last_answer_in_its_own_light(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    for text in ("/why", "30 ml", "double", "/why"):
        await chat.say(text)
    replies = [(await chat.next_reply()).text for _ in range(4)]
    assert replies[0] == "Nothing was asked yet."
    assert replies[3] == "Working of double\nfrom {'ml': 30}"


@pytest.mark.parametrize(("text", "start_of_reply"), [
    ("/nonsense", "I do not know that command."),
    ("/ask", "What would you like to know?"),
    ("tell me a joke", "I cannot read that."),
])
async def test_nothing_private_stays_unanswered(api: FakeBotApi, bot: App, text: str, start_of_reply: str) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say(text)
    assert (await chat.next_reply()).text.startswith(start_of_reply)


async def test_a_file_is_told_that_only_text_is_read(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.send_document(b"5 ml", caption="5 ml")
    assert (await chat.next_reply()).text.startswith("I read text only")


async def test_a_forwarded_command_is_a_text(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("our dash is 0.6")
    await chat.next_reply()
    await chat.forward("/forget")
    assert (await chat.next_reply()).text == "I cannot read that.\n/forget"
    await chat.say("dash?")
    assert (await chat.next_reply()).text == "0.6 ml"


async def test_a_long_answer_is_split_on_lines_and_a_short_one_is_not(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("lines 40 of 100")
    assert len((await chat.next_reply()).text.split("\n")) == 41
    await chat.silence(0.05)
    await chat.say("lines 100 of 100")
    parts = [await chat.next_reply() for _ in range(3)]
    lines = "\n".join(p.text for p in parts).split("\n")
    assert lines[0] == "Long" and [x.split()[0] for x in lines[1:]] == [str(n) for n in range(100)]
    assert all(len(x) == 100 for x in lines[1:])
    assert [p.marked("bold") for p in parts] == [["Long"], [], []]
