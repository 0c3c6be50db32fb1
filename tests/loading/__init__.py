"""Tests of loading."""
