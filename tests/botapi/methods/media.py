"""sendPhoto, sendDocument, getFile."""

from __future__ import annotations

import struct

from ..errors import WRONG_FILE, ApiError, NotImitated, bad
from ..formatting import formatted
from ..params import Json, Params, Upload
from ..world import StoredFile, World
from .sending import send

MAX_PHOTO = 10 * 2**20
"""Bytes of a photo (core.telegram.org/bots/api#sendphoto)."""

MAX_DOCUMENT = 50 * 2**20
"""Bytes of a document (core.telegram.org/bots/api#senddocument)."""

MAX_DOWNLOAD = 20 * 2**20
"""Bytes that getFile serves (core.telegram.org/bots/api#getfile)."""

_PNG = b"\x89PNG\r\n\x1a\n"
_JPEG = b"\xff\xd8\xff"


def _received(world: World, params: Params, name: str, limit: int, folder: str) -> StoredFile:
    upload = params.upload(name)
    if upload is None:
        given = params.text(name)
        if given.startswith(("http://", "https://")):
            raise NotImitated(f"{name} by URL")
        if given in world.files:
            return world.files[given]
        raise bad(WRONG_FILE if given else f"there is no {name} in the request")
    if len(upload.data) > limit:
        raise ApiError(413, "Request Entity Too Large")
    if not upload.data:
        raise bad("file must be non-empty")
    return world.store(upload, folder)


def _caption(params: Params) -> Json:
    caption, entities = formatted(params, "caption")
    shown: Json = {"caption": caption} if caption else {}
    return shown | ({"caption_entities": entities} if entities else {})


def file_json(kept: StoredFile) -> Json:
    """The fields that every file object carries."""
    unique = kept.file_id.replace("FILE", "UNIQUE")
    return {"file_id": kept.file_id, "file_unique_id": unique, "file_size": len(kept.data)}


def document_json(kept: StoredFile) -> Json:
    """The Bot API's Document object."""
    return file_json(kept) | {"file_name": kept.name, "mime_type": kept.mime}


def photo_json(kept: StoredFile) -> list[Json]:
    """The Bot API's list of sizes, here always one; raises 400 for what is not a PNG or JPEG picture."""
    if kept.data.startswith(_PNG) and len(kept.data) >= 24:
        width, height = struct.unpack(">II", kept.data[16:24])
    elif kept.data.startswith(_JPEG):
        width, height = 320, 240
    else:
        raise bad("IMAGE_PROCESS_FAILED")
    if width + height > 10_000 or max(width, height) > 20 * min(width, height):
        raise bad("PHOTO_INVALID_DIMENSIONS")
    return [file_json(kept) | {"width": width, "height": height}]


def send_photo(world: World, params: Params) -> Json:
    """Send a picture with a caption of at most 1024 characters."""
    caption = _caption(params)
    world.room(params)
    photo = photo_json(_received(world, params, "photo", MAX_PHOTO, "photos"))
    return send(world, params, {"photo": photo} | caption, params.text("caption"))


def send_document(world: World, params: Params) -> Json:
    """Send a file with a caption of at most 1024 characters."""
    caption = _caption(params)
    world.room(params)
    kept = _received(world, params, "document", MAX_DOCUMENT, "documents")
    return send(world, params, {"document": document_json(kept)} | caption, params.text("caption"))


def get_file(world: World, params: Params) -> Json:
    """Where to download a file of at most 20 MiB."""
    kept = world.files.get(params.text("file_id"))
    if kept is None:
        raise bad("invalid file_id")
    if len(kept.data) > MAX_DOWNLOAD:
        raise bad("file is too big")
    return file_json(kept) | {"file_path": kept.path}


def store_upload(world: World, data: bytes, name: str, mime: str, folder: str) -> StoredFile:
    """Keep a file that a person sent."""
    return world.store(Upload(name, mime, data), folder)
