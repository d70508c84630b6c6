"""The page for phone and tablet: the same questions, the same words and the same journal as at the terminal.

`guard` decides who may speak, `answers` takes what was said, `app` joins both to addresses; the templates hold the
screens. Nothing is fetched from outside, and without script every screen is still a plain form.
"""
