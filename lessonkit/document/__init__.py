"""Plans and activities turned into documents that know no file format."""
