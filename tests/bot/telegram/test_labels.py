"""A label over the wire: the picture for the chat, the sheet for the printer, both as files that can be opened."""

from __future__ import annotations

import io

import pytest
from botapi import FakeBotApi
from PIL import Image
from stillroom import Kernel
from stillroom_bot.conversation import Conversation


@pytest.fixture(scope="module")
def conversation(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """The real one."""
    return Conversation(Kernel(tmp_path_factory.mktemp("cache")))


async def test_a_label_is_sent_as_a_picture_and_as_a_sheet(
    api: FakeBotApi, start, conversation: Conversation
) -> None:
    chat = api.private(api.user("Mara"))
    async with start(conversation):
        await chat.say("labels for lime cordial, 12 on a sheet")
        told, picture, sheet = [await chat.next_reply(30) for _ in range(3)]
    assert "Label for" in told.text and "local labelling law" in told.text
    with Image.open(io.BytesIO(picture.file)) as image:
        assert picture.message["photo"] and image.format == "PNG" and min(image.size) > 300
        assert len(image.convert("L").getcolors() or ()) > 1, "a label is no blank sheet"
    assert sheet.message["document"]["file_name"].endswith(".pdf")
    assert sheet.file.startswith(b"%PDF") and sheet.file.rstrip().endswith(b"%%EOF")
    assert len(api.calls_of("sendPhoto")) == len(api.calls_of("sendDocument")) == 1
