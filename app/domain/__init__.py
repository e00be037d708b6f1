"""The trade, pure: values and functions, no Qt, SQL, files, clock or randomness."""
