"""The record of one job, from the first look to the closed job: state computed from events, and nothing else kept.

`events` says what can happen, `folder` where it is kept, `state` what it adds up to, `open_items` what is still to do.
"""
