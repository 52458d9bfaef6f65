"""A torque-spec and fastener-reuse rulebook with a validator."""

__version__ = "0.1.0"
