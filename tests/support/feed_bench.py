"""A running `becket serve`, and one request to it."""
import atexit
import http.client
import re
import subprocess


class Feeds:
    """Serves a book's feeds until the script ends: at a free port, or at one of the caller's."""

    def __init__(self, book, port=0):
        self.book = book
        self.asked_port = port
        self.start()
        atexit.register(self.stop)

    def start(self):
        self.process = subprocess.Popen(
            self.book.command("serve", "--port", self.asked_port), env=self.book.environment,
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        line = self.process.stdout.readline()
        self.port = int(re.search(r"port (\d+)", line).group(1))

    def stop(self):
        """Ends it as Ctrl-C does; gives its exit status."""
        if self.process.poll() is None:
            self.process.send_signal(2)
        self.process.stdout.close()
        return self.process.wait(timeout=20)

    def new(self, *words):
        """Makes an address; gives its path and its number."""
        told = self.book.must("serve", "new", *words)
        return re.search(r"http://[^/]+(\S+)", told).group(1), told.split()[0]

    def ask(self, path, method="GET", **headers):
        """Status, headers by small-lettered name, body."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        connection.request(method, path, headers={
            name.replace("_", "-"): value for name, value in headers.items()})
        answer = connection.getresponse()
        body = answer.read()
        connection.close()
        return answer.status, {k.lower(): v for k, v in answer.getheaders()}, body
