"""Tests of the year map."""
