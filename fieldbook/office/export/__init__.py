"""Tables, bill, JSON and the job file; shelves at an address."""
