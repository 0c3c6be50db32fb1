"""Text to records, with the exact place of everything that is wrong."""
