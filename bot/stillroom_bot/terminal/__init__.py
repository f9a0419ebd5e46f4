"""The terminal: one question, a conversation, questions by the line, and what there is to ask.

Each file is one command's work: a function that is handed what it needs and returns an exit status.
Nothing here is imported before its command is called, so that one question stays quick.
"""
