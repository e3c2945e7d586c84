"""Which ingredient is each line? A match, how it was found, how sure; or an explicit unknown."""
