"""Checks of a jack-driven press frame: utilisation ratios with their source, never a sign-off."""

__version__ = "0.1.0"
