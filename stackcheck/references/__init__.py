"""References among themselves: laid against each other, mirrored, made and looked through.
Pure functions, model in, model out.
"""
