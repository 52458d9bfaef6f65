"""A technician's own list of planned tightenings, from any format; every value keeps its cell."""
