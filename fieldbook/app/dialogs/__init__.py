"""Dialogs: questions that must be answered before the screen goes on."""
