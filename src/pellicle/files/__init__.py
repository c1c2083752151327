"""The only room that knows file formats: product and ingredient files (TOML), their schema, and a template to start
from."""
