"""Tables that others made, as cells: CSV in any encoding, XLSX within limits, nothing else."""
