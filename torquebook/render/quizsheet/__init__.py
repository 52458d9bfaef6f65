"""Printed question sheets, their keys and the ways to them: three documents, page and PDF.

``content`` says once what is printed; ``page`` sets it in HTML and ``pdf`` with typst.
"""
