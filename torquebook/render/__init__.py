"""Answers as text for a person or as JSON for a program; the only place that prints."""
