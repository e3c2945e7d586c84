"""What is each one doing in this mixture? Matches in context to ranked roles, with reasons."""
