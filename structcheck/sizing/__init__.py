"""Rated load, what to change, what to pick."""
