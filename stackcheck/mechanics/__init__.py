"""What the differences do: lengths, gaps and their uncertainty. Pure functions, model in, values out."""
