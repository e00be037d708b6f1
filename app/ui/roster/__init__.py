"""All clients: finding them, what each needs, and what can be done with them as a whole."""
