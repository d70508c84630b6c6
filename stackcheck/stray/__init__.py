"""Engine three: what is this stray part, and where does it belong?

Two questions, kept apart in the answer. *Identity*: what object is it. *Origin*: why is it here, where does it belong.
Pure functions, model in, model out:

    seen        what was looked at and measured          beliefs     priors and wear as data, each with its reason
    candidates  what it could be                         likelihood  how well sizes and looks suit a candidate
    hypotheses  why it could be here                     decide      identified, shortlist or unknown
    fit         where it goes                            next_look   the look or measurement that helps most
    books       all jobs of one machine together         explain     one answer put together
"""
