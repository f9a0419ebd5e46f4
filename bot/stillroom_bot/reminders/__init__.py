"""Reminders: what a person wants to be told, and when.

A chat's reminders are part of its state, so that setting one is a message like any other; the store keeps
each in a table as well, written with the state, by which a front end finds those that are due.
"""

from .reminder import Reminder, coming, due_text, past

__all__ = ["Reminder", "coming", "due_text", "past"]
