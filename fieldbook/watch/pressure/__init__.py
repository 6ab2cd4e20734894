"""The pressure the line sees in service, and the pull that it puts on the string."""
