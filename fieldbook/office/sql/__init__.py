"""The shelf in an SQL database, for reports over all jobs; the only room that loads SQLAlchemy.

The database is a copy for questions. The record stays in the jobs' logs.
"""
