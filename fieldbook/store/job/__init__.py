"""One job: its folder, its devices' logs as one record, drafts and attachments."""
