"""The gauge: what it can mean, what it should read, and whether it does."""
