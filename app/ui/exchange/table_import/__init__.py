"""Reading a coach's table as a program, in three pages: its columns, its names, the program."""
