"""The terms of the sequencer, one a module."""
