"""What the rules look at: a line's fastener, its loads, its list, and what explains a slip."""
