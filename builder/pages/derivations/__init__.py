"""How each number was made, on the page and in the terminal."""
