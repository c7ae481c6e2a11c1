"""What an item's words say, and what form its answer takes."""
