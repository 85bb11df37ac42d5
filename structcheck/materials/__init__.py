"""Figures of steels, bolts, welds and spring wire, one data file per edition, each with its source."""
