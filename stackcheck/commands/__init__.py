"""One module a command, or a few that belong together: read, ask the engines, present, answer with an exit status."""
