"""Checks of the Word writer."""
