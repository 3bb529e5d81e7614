"""What a row of readings says: lines, first movement, lag."""
