"""Choosing activities: what fits a class, a cupboard, a floor and a few minutes; what is alike; what is missing."""
