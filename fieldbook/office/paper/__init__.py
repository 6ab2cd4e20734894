"""The walk and the lift check on paper."""
