"""What does one call do, end to end? The public functions, the answers they give, and recomputation."""
