"""The catalogue: read spec files strictly, build the index, and answer from it."""
