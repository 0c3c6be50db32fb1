"""What authors mean: one frozen type a record kind, and the library that holds them all."""
