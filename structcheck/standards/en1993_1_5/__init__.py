"""EN 1993-1-5:2006, plated structural elements: plates in compression, local forces, stiffeners."""
