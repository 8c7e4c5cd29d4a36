#!/usr/bin/env python3
"""What a poll of a base's feed costs when there is nothing new, beside nginx with the same bytes in
a file.

    feed_bench.py BECKET [BOATS]

A book of invented boats (fleets.py; 200 when not said) with a feed of one base is served; a client
that has the feed asks again with its ETag, each time over a new connection, as calendar programs
do. Printed are the medians of the seconds until the answer was there and the processor's seconds a
poll, also of the whole feed fetched anew, and their ratios. A benchmark, not a test: nothing is
asserted. What is aimed at is ten times nginx.
"""
import http.client
import os
import re
import shutil
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import fleets

POLLS = 1000
NGINX = """daemon off; master_process off; pid {folder}/pid; error_log {folder}/errors;
events {{}}
http {{ access_log off; client_body_temp_path {folder}; proxy_temp_path {folder};
fastcgi_temp_path {folder}; uwsgi_temp_path {folder}; scgi_temp_path {folder};
server {{ listen 127.0.0.1:{port}; root {folder}/files; etag on; }} }}
"""


def free_port():
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        return listener.getsockname()[1]


def fetch(port, path, etag=None):
    """Status, ETag and body of one request over a connection of its own."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    connection.request("GET", path, headers={} if etag is None else {"If-None-Match": etag})
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    return answer.status, answer.getheader("ETag"), body


def first(port, path):
    """The first answer of a server that is still starting."""
    for _ in range(200):
        try:
            return fetch(port, path)
        except OSError:
            time.sleep(0.05)
    return sys.exit(f"nothing answers at port {port}")


def used(process):
    fields = Path(f"/proc/{process.pid}/stat").read_text().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def measured(process, port, path, etag, status):
    """Seconds until an answer, the median, and the processor's seconds of one, the mean."""
    waited = []
    began = used(process)
    for _ in range(POLLS):
        start = time.perf_counter()
        if fetch(port, path, etag)[0] != status:
            sys.exit(f"{path}: not the status {status}")
        waited.append(time.perf_counter() - start)
    return statistics.median(waited), (used(process) - began) / POLLS


def both(process, port, path):
    _, etag, _ = first(port, path)
    fetch(port, path)
    return {"nothing new": measured(process, port, path, etag, 304),
            "the whole feed": measured(process, port, path, None, 200)}


def serve_ours(becket, book, port):
    said = fleets.run(becket, book, "serve", "new", "--base", "Base 000")
    path = re.search(r"http://[^/]+(/feed/\S+)", said).group(1)
    return path, subprocess.Popen(
        [becket, "--book", str(book), "--today", fleets.TODAY, "serve", "--port", str(port)],
        stdout=subprocess.DEVNULL)


def serve_theirs(folder, port, body):
    (folder / "files").mkdir()
    (folder / "files" / "feed.ics").write_bytes(body)
    settings = folder / "nginx.conf"
    settings.write_text(NGINX.format(folder=folder, port=port))
    return subprocess.Popen(["nginx", "-p", str(folder), "-c", str(settings)],
                            stderr=subprocess.DEVNULL)


def main():
    becket = os.path.abspath(sys.argv[1])
    boats = int(sys.argv[2]) if len(sys.argv) > 2 else 200
    if shutil.which("nginx") is None:
        sys.exit("nginx is not installed, which the feed is held against")
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        fleets.by_sql(becket, folder / "fleet.db", boats)
        ports = free_port(), free_port()
        path, ours = serve_ours(becket, folder / "fleet.db", ports[0])
        theirs = serve_theirs(folder, ports[1], first(ports[0], path)[2])
        found = both(ours, ports[0], path), both(theirs, ports[1], "/feed.ics")
        for process in (ours, theirs):
            process.terminate()
            process.wait()
    print(f"{boats} boats; a poll of one base's feed: seconds waited, of the processor")
    for what, (waited, spent) in found[0].items():
        other_waited, other_spent = found[1][what]
        print(f"  {what:15} {waited:.5f} {spent:.5f}   nginx {other_waited:.5f} {other_spent:.5f}   "
              f"{waited / other_waited:.1f} times the wait"
              + (f", {spent / other_spent:.1f} the processor's" if other_spent > 0 else ""))


if __name__ == "__main__":
    main()
