"""Text to model and back: the only modules that know TOML."""
