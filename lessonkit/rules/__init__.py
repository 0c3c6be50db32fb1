"""Rules about records: what would go wrong in the gym."""
