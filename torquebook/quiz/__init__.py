"""Question sheets with keys, computed from the book by the program's own functions.

``model`` says what a question is, the modules of families make questions, ``making`` sheets.
"""
