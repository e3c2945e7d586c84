"""What is left on the surface, and what does a count under the microscope imply?"""
