"""Tests of lessonkit/planning."""
