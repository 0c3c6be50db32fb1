"""The Word writer."""
