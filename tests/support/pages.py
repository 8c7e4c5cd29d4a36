"""The page as a browser without a script sees it: `becket page` on a book, its pages as trees."""
import html.parser
import http.client
import re
import subprocess
import urllib.parse

VOID = {"meta", "link", "br", "hr", "img", "input", "col"}


class Node:
    """An element: its name, attributes, children (elements and strings)."""

    def __init__(self, name, attributes):
        self.name, self.attributes, self.children = name, dict(attributes), []

    def all(self, name=None, /, **wanted):
        """Every element inside, in order, of a name; class_="k" has that class among its own,
        other words are attributes as they are."""
        for child in self.children:
            if isinstance(child, str):
                continue
            classes = child.attributes.get("class", "").split()
            if (name is None or child.name == name) and all(
                    value in classes if key == "class_" else child.attributes.get(key) == value
                    for key, value in wanted.items()):
                yield child
            yield from child.all(name, **wanted)

    def one(self, name=None, /, **wanted):
        return next(self.all(name, **wanted), None)

    def text(self):
        """Its words, each run of blanks as one."""
        words = "".join(child if isinstance(child, str) else
                        ("\n" if child.name == "br" else "") + child.text_raw()
                        for child in self.children)
        return re.sub(r"\s+", " ", words.replace("\u00a0", " ")).strip()

    def text_raw(self):
        return "".join(child if isinstance(child, str) else
                       (" " if child.name == "br" else "") + child.text_raw()
                       for child in self.children)


class Tree(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.top = Node("", [])
        self.open = [self.top]

    def handle_starttag(self, tag, attrs):
        node = Node(tag, [(name, value or "") for name, value in attrs])
        self.open[-1].children.append(node)
        if tag not in VOID:
            self.open.append(node)

    def handle_startendtag(self, tag, attrs):
        self.open[-1].children.append(Node(tag, [(n, v or "") for n, v in attrs]))

    def handle_endtag(self, tag):
        if tag not in VOID:
            self.open.pop()

    def handle_data(self, data):
        self.open[-1].children.append(data)


def tree(words):
    """The elements of a page."""
    parser = Tree()
    parser.feed(words)
    return parser.top


class Pages:
    """`becket page` on a book, and a reader that was let in."""

    def __init__(self, book):
        self.process = subprocess.Popen(
            book.command("page", "--no-browser"), cwd=book.folder,
            env={**book.environment, "XDG_RUNTIME_DIR": str(book.folder)},
            stdout=subprocess.PIPE, text=True)
        address = None
        while address is None:
            line = self.process.stdout.readline()
            if line == "":
                raise RuntimeError("becket page ended before it gave its address")
            address = re.search(r"http://(127\.0\.0\.1:\d+)(/\S+)", line)
        self.host = address.group(1)
        self.cookie = ""
        answer, _ = self.ask("GET", address.group(2))
        self.cookie = answer.getheader("Set-Cookie").split(";")[0]

    def ask(self, method, path, body=None, **headers):
        """An answer and its body."""
        connection = http.client.HTTPConnection(self.host, timeout=60)
        connection.request(method, path, body, {"Cookie": self.cookie, **headers})
        answer = connection.getresponse()
        return answer, answer.read()

    def get(self, path):
        """The page at that address; it must be there."""
        answer, body = self.ask("GET", path)
        if answer.status != 200:
            raise RuntimeError(f"{path}: {answer.status} {tree(body.decode()).text()[:400]}")
        return tree(body.decode())

    def fields(self, form):
        """What a form would send as it stands: names and values."""
        sent = []
        for field in form.all():
            name, kind = field.attributes.get("name"), field.attributes.get("type", "text")
            if name is None or field.name not in ("input", "select", "textarea"):
                continue
            if field.name == "select":
                options = list(field.all("option"))
                chosen = [o for o in options if "selected" in o.attributes] or options[:1]
                sent += [(name, o.attributes.get("value", o.text())) for o in chosen]
            elif kind not in ("radio", "checkbox") or "checked" in field.attributes:
                sent.append((name, field.attributes.get("value", "")))
        return sent

    def send(self, form, press=None, **typed):
        """Sends a form with these fields typed and a button pressed: status, page, where to go
        on."""
        fields = [(name, typed.pop(name, value)) for name, value in self.fields(form)]
        fields += list(typed.items()) + ([(press, "yes")] if press else [])
        answer, body = self.ask(
            "POST", form.attributes["action"].split("#")[0], urllib.parse.urlencode(fields),
            **{"Content-Type": "application/x-www-form-urlencoded",
               "Origin": f"http://{self.host}"})
        return answer.status, tree(body.decode()), answer.getheader("Location")

    def close(self):
        self.process.terminate()
        self.process.wait()


def send_parts(pages, form, file, **typed):
    """Sends a form with a file in it (RFC 7578): its field, its name, its type, its bytes."""
    edge = "two-faces-edge"
    fields = [(name, typed.pop(name, value)) for name, value in pages.fields(form) if name != file[0]]
    parts = [f'--{edge}\r\nContent-Disposition: form-data; name="{name}"\r\n\r\n{value}\r\n'.encode()
             for name, value in fields + list(typed.items())]
    parts.append(f'--{edge}\r\nContent-Disposition: form-data; name="{file[0]}"; '
                 f'filename="{file[1]}"\r\nContent-Type: {file[2]}\r\n\r\n'.encode() + file[3] +
                 f"\r\n--{edge}--\r\n".encode())
    answer, body = pages.ask("POST", form.attributes["action"].split("#")[0], b"".join(parts), **{
        "Content-Type": f"multipart/form-data; boundary={edge}", "Origin": f"http://{pages.host}"})
    return answer.status, tree(body.decode())
