"""The window: Qt only. Paints values and sends intents; colours come from `theme`."""
