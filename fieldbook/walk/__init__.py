"""The walk: the steps of a job as data, where the job is among them, and its counts.

The steps are the TOML files of `steps/`, one a phase; `loading.load` makes the walk of a drop
line and a work of them, with a company's own steps. `walk.Walk.stand` says where a job is.
"""
