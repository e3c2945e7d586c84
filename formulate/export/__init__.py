"""How do I hand it on? Pictures and documents of what was worked out; no decisions."""
