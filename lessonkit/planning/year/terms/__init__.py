"""What a year map must keep to, and what makes one better than another: a module each."""
