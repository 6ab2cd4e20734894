"""The disk: each job a folder of append-only logs, the shelf of jobs, and the union of logs.

What is promised: an entry that `Book.record` returned is on disk and stays; nothing recorded is
erased; damage is found, named and kept apart from what is still readable. It holds on disks that
honour fsync.
"""
