"""Known parts by their sizes: which of them a part on the bench can be, and how far each is from what was measured."""
