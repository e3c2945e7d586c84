"""``formulate coverage``: its flags."""

from __future__ import annotations

import argparse

FLAGS: tuple[tuple[str, str, str], ...] = (
    ("--silica", "0.005", "silica in the product, mass fraction (0.5%% is taken too); needed where there is no list"),
    ("--film-former", "0.015", "film former in the product, where there is no list"),
    ("--diameter-nm", "70|50:100|lognormal:70:1.3:number", "size of the particles; of number, mass or z"),
    ("--wet-g-per-m2", "5", "liquid that one coat puts on"),
    ("--kept", "0.1", "fraction left after wiping and buffing"),
    ("--passes", "2", "coats"),
    ("--field-um", "5|5x8", "side or sides of one field"),
    ("--counted", "4,7,3/5,6", "what was counted: fields, then coupons"),
    ("--covered", "0.024", "covered fraction, where that was measured"),
    ("--smallest-nm", "5", "smallest height that shows"),
    ("--tip-nm", "10", "radius of the tip"),
    ("--recognised", "0.9", "chance that a particle that shows is counted (default 1)"),
    ("--background", "0.3", "mean count per field on a blank (default 0)"),
    ("--application", "wet-wipe", "how it is put on: a row of applications.csv (default: by the form)"),
)
NAMES = tuple(flag.removeprefix("--").replace("-", "_") for flag, _, _ in FLAGS)


def add(command: argparse.ArgumentParser) -> None:
    """Add the flags of the command."""
    for flag, metavar, help_ in FLAGS:
        command.add_argument(flag, metavar=metavar, help=help_)
