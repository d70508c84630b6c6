"""Compare the parts that came off a shaft or axle with the assembly they should make."""

__version__ = "0.1.0"
