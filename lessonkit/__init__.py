"""Keep a physical-education curriculum as plain records, check it, plan units from it and print the binder."""

__version__ = "0.1.0"
