"""Values to words, terminal text and JSON. Every sentence is made once, in `words`, and used by all the others."""
