"""The walk screen: the steps of a job, its form, and the actions beside it."""
