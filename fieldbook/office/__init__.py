"""What leaves the book: the job file, its tables, and the sample jobs."""
