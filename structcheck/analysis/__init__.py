"""Mechanics without any standard: beams, frames, groups of bolts and welds, grillages and plates."""
