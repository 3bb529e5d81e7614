"""Sync and storage under fire: scenarios S1 to S20, each with a small seeded form and a whole one."""
