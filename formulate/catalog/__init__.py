"""What is known, and who says so? Validated tables, the name index, sources."""
