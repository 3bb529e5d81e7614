"""What the workshop keeps: operations, the jobs made from them, blobs. The only room with SQL."""
