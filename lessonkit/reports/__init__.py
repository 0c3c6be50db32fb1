"""Findings to text for people and machines."""
