"""Reminders pushed to xandikos, as tests/support/caldav_life.py has it."""
import os
import sys

ROOT = os.environ.get("ROOT") or os.path.join(os.path.dirname(__file__), "..", "..")
sys.path.insert(0, os.path.join(ROOT, "tests", "support"))
os.environ.setdefault("BECKET", sys.argv[1] if len(sys.argv) > 1 else "becket")
import caldav_life  # noqa: E402

sys.exit(caldav_life.main("xandikos"))
