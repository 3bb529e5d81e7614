"""What a verdict says: figures in the unit asked for, and sentences from one catalogue a language."""
