"""The strip report and the sheet to carry along: what a comparison says, on paper."""
