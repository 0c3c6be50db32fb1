"""Looking codes up in a framework: spelling, status, coverage."""
