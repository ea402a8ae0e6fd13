"""Nothing of the work is lost: kept beside the project while it is edited, offered again, compared, restored."""
