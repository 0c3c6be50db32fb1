"""Tests of choosing activities."""
