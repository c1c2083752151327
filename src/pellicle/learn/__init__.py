"""What measurements teach: readings of past lots correct what the model says of a product."""
