"""Results as a table and as JSON."""
