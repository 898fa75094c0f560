"""Building up: holds, work, joints."""
