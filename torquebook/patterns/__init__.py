"""Positions of a joint, and orders over them: made, checked and measured."""
