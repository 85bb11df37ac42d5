"""Pure formula functions, clause by clause: one file for each part of a standard, `handbook` for textbook formulas."""
