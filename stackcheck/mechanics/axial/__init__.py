"""Forces along one axis: faces as unknowns, every part a spring between two faces, the state the one least energy.

`laws` holds what each kind of element does, `network` finds the state (one small one in `plain` numbers, many variants
and long rows by `newton` in arrays), `tighten` the two steps of a bolted joint, `loose` where parts that nothing holds
may lie. The formulas that feed them stand in `stiffness`, `threads`, `bearings` and `springs`. Nothing here knows a
reference, a file or a word for the screen. Units: mm, N, N/mm.
"""
