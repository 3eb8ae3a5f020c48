"""Templates of the sheets: one for HTML with its style, one for print."""
