"""The steps as data: read, checked, and a company's added."""
