"""What the bench commands answer: pure functions of the book, small frozen answers."""
