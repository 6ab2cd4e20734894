"""The union of logs from other folders into a shelf."""
