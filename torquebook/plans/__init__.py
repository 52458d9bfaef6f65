"""A technician's own list of planned tightenings, read from any format; every value keeps its cell."""
