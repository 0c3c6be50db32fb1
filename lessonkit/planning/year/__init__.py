"""The year map: the units of all classes in their weeks, with proof and reasons."""
