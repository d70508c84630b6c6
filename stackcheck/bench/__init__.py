"""At the bench: which question comes next, what an answer means, and the terminal that carries both.

`questions` and `answers` are pure: a job in, a question out; a question and a text in, events and words out. So a job
begun in one place goes on in another at any question, and everything can be answered from a script.
"""
