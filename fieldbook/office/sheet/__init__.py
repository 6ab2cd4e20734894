"""The sheet of a job as HTML."""
