"""What all pages share: the frame, the look, the words in templates, the headers of every answer."""
