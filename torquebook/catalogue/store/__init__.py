"""The index of a folder of records: one SQLite file that is read and never written in place."""
