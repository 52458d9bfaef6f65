"""What the bench commands answer: pure functions of the book, small frozen answers.

Imports units, notation, mechanics and catalogue only; render and cli stand above it.
"""
