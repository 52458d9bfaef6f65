"""Question sheets for programs and for files: Markdown, JSON, the mark list, QTI, and marks.

Sheets, key and worked solutions are separate documents; only ``qti`` holds questions and answers
together, as courses' platforms mark by it.
"""
