"""Documents to bytes, one writer a format."""
