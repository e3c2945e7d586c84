"""What does the text say? Lines with stated amounts and their place; no chemistry of its own."""

from formulate.reading.reader import check_list_size, read_text
from formulate.reading.reasons import add_fact, add_hazard_code, add_left_over, add_pasted, add_stated

__all__ = ["add_fact", "add_hazard_code", "add_left_over", "add_pasted", "add_stated", "check_list_size", "read_text"]
