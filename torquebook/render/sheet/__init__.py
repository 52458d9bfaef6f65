"""The printed sheet of a job: what stands on it, as a page and as a PDF.

``content`` says once what is printed; ``page`` sets it in HTML and ``pdf`` with typst.
"""
