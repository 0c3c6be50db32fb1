"""What a class of N children needs: groups, turns, equipment, floor, moving time."""
