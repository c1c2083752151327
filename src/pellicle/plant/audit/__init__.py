"""The audit: one chain of sentences that nothing is taken out of. Read ``chain``, then ``guards``, then ``verify``."""
