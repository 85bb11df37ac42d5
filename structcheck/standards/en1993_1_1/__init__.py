"""EN 1993-1-1:2005 with corrigenda, general rules and rules for buildings."""
