"""The things we talk about: frozen models, reasons, interval arithmetic. No files."""
