"""What is left on the surface, and what a count under the microscope implies."""
