"""Charts of a client, drawn off the GUI thread; a sentence and a table beside each."""
