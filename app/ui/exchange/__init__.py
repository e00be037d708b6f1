"""Dialogs by which plans leave the window and enter it: tables, calendars, references, folders."""
