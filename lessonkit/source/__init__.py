"""Places in files, and the findings that point at them."""
