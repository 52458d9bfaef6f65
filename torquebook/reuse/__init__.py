"""The reuse rulebook: what a fastener that was taken out gets."""
