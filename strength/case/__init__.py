"""TOML file to frozen, checked Case."""
