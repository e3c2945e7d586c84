"""What was handed over? Text from a path, standard input or bytes, under limits of size; no chemistry."""

from formulate.intake.limits import check_list_size
from formulate.intake.source import read_input, text_of_bytes, text_of_path, text_of_stdin

__all__ = ["check_list_size", "read_input", "text_of_bytes", "text_of_path", "text_of_stdin"]
