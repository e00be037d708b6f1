"""Results: the sheet that is filled like a spreadsheet, and tables of results from elsewhere."""
