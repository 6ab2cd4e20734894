"""The log as data: entries, and the job as a fold over them.

Everything that happens on a job is an `Entry`. A `Job` is what its entries add up to; the same
entries in any order of arrival give the same job. Nothing here knows of disks, screens or units.
"""
