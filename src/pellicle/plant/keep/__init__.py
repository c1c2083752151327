"""Backup and restore: one file with everything, made while people work, checked before it takes a plant's place."""
