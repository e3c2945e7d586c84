"""How does evidence turn into findings? Rule files, the engine that runs them, and the reasons they give."""
