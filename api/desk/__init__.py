"""The desk: the workshop's jobs on a wide screen, as pages without script."""
