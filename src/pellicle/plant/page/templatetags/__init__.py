"""What templates can say."""
