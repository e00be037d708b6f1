"""The coach's file: values to rows and back. SQL and rows never leave this package."""
