"""What a teacher writes, loaded and checked."""
