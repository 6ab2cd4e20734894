"""The panels of the walk: step, holds, stops, limits, well and trace."""
