"""A job on a phone: one page that works offline, and writes the same journal."""
