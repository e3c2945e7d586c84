"""How do I ask, in words? Calls to ``workflow``, nothing else."""
