"""Pictures of a comparison: one layout, drawn as SVG and for a terminal of 80 columns."""
