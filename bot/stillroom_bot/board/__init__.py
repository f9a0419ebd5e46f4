"""The prep board: what a bar keeps of its own, chat by chat.

``spec`` and ``book`` are the types; they are immutable and serialise to JSON, and a change of a book is a
new book.  A front end loads a chat's book beside its state and keeps what came of it.
"""

from .book import Book
from .spec import KeptSpec

__all__ = ["Book", "KeptSpec"]
