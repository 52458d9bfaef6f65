"""Jobs: gates and joints in working order, what to order, what to have ready, the sheet."""
