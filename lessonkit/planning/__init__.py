"""A unit request turned into a plan, with proof and reasons."""
