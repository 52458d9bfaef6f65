"""The validator: one module per family of rules, an engine, and the list of all rules."""
