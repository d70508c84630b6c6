"""What things are: parts, places, references, found entries, findings. Frozen values; no file, no print, no clock."""
