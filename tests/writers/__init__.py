"""Checks of the writers."""
