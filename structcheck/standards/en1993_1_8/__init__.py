"""EN 1993-1-8:2005, design of joints."""
