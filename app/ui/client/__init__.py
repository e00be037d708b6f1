"""The client pane and its forms: one file a page."""
