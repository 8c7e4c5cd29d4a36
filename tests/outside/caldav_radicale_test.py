"""Reminders pushed to radicale, as tests/support/caldav_life.py has it."""
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "support"))
import caldav_life  # noqa: E402

caldav_life.main("radicale")
