"""Many runs of the same question: draws of what is uncertain, the same ones every time, so that differences are not
noise."""
