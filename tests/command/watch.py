#!/usr/bin/env python3
"""Uses `dogear watch` as a designer does, in a browser without a window.

    watch.py PROGRAM PATTERN FOLDER    PATTERN is a folder that is changed; FOLDER is for the browser

Waits for what shall be seen, and times nothing. Prints each thing looked at; fails at the first that
is not as it should be.
"""

import http.client
import os
import pathlib
import signal
import socket
import subprocess
import sys
import urllib.parse

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
from browser import Browser, same  # noqa: E402


class Place:
    """A file of the pattern, saved as editors do: written beside, then renamed."""

    def __init__(self, path):
        self.path = path

    def change(self, before, after):
        text = self.path.read_text(encoding="utf-8")
        if text.count(before) != 1:
            sys.exit(f"{self.path} does not have this once: {before}")
        beside = self.path.with_name(self.path.name + "~")
        beside.write_text(text.replace(before, after), encoding="utf-8")
        os.replace(beside, self.path)


def ask(url, path=None, method="GET", **headers):
    """The status and the headers of an answer."""
    parts = urllib.parse.urlsplit(url)
    link = http.client.HTTPConnection(parts.hostname, parts.port, timeout=60)
    named = {"Host": parts.netloc}
    named.update({name.replace("_", "-"): value for name, value in headers.items()})
    link.putrequest(method, parts.path if path is None else path, skip_host=True)
    for name, value in named.items():
        link.putheader(name, value)
    link.endheaders()
    answer = link.getresponse()
    found = answer.status, dict(answer.getheaders())
    link.close()
    return found


def refusals(url):
    parts = urllib.parse.urlsplit(url)
    port = parts.port
    same("the page", ask(url)[0], 200)
    same("by its other name", ask(url, Host=f"localhost:{port}")[0], 200)
    same("without the secret", ask(url, "/")[0], 403)
    same("a file's path", ask(url, "/etc/passwd")[0], 403)
    same("a wrong secret", ask(url, "/" + "0" * 48 + "/")[0], 403)
    same("a path out of it", ask(url, parts.path + "../pattern.yaml")[0], 404)
    same("another path", ask(url, parts.path + "picture/%2e%2e%2fpattern.yaml")[0], 404)
    same("another host", ask(url, Host=f"patterns.example:{port}")[0], 403)
    same("another port", ask(url, Host="127.0.0.1:1")[0], 403)
    same("another origin", ask(url, Origin="https://patterns.example")[0], 403)
    same("no origin", ask(url, Origin="null")[0], 403)
    same("from another site", ask(url, Sec_Fetch_Site="cross-site")[0], 403)
    same("from a neighbour", ask(url, Sec_Fetch_Site="same-site")[0], 403)
    same("its own script", ask(url, Sec_Fetch_Site="same-origin", Origin=url[:url.index("/", 8)])[0], 200)
    for method in ("POST", "PUT", "DELETE", "HEAD", "OPTIONS"):
        same(method, ask(url, method=method)[0] in (400, 405), True)
    headers = ask(url)[1]
    for name, words in (("X-Content-Type-Options", "nosniff"), ("Referrer-Policy", "no-referrer"),
                        ("Cross-Origin-Resource-Policy", "same-origin"), ("Cache-Control", "no-store")):
        same(name, headers.get(name), words)
    same("the policy", headers["Content-Security-Policy"].startswith("default-src 'none'; style-src 'sha256-"), True)
    # More than a request may be is not read to its end.
    with socket.create_connection((parts.hostname, port), timeout=60) as link:
        try:
            link.sendall(b"GET " + parts.path.encode() + b" HTTP/1.1\r\nHost: " + parts.netloc.encode() + b"\r\n")
            for _ in range(64):
                link.sendall(b"X-Long: " + b"x" * 4000 + b"\r\n")
            link.sendall(b"\r\n")
            got = link.recv(64)
        except (ConnectionResetError, BrokenPipeError):
            got = b""
    # Connections that ask nothing are closed, and an answer comes beside them.
    idle = [socket.create_connection((parts.hostname, port), timeout=60) for _ in range(100)]
    same("an answer beside a hundred that ask nothing", ask(url)[0], 200)
    same("which are closed", {link.recv(1) for link in idle}, {b""})
    same("a request of 256 kB", got[:12] in (b"", b"HTTP/1.1 400", b"HTTP/1.1 414", b"HTTP/1.1 431"), True)


def main(program, pattern, folder):
    watch = subprocess.Popen([program, "watch", str(pattern)], stdout=subprocess.PIPE, text=True)
    signal.signal(signal.SIGTERM, lambda *_: sys.exit("it took too long"))
    try:
        use(program, watch, pattern, folder)
    finally:
        watch.kill()


def use(program, watch, pattern, folder):
    url = watch.stdout.readline().strip()
    same("the address is of this machine", url.startswith("http://127.0.0.1:"), True)
    taken = subprocess.run([program, "watch", str(pattern), "--port", str(urllib.parse.urlsplit(url).port)],
                           capture_output=True, text=True, timeout=60, check=False)
    same("a port that is taken", (taken.returncode, "cannot be used" in taken.stderr, taken.stdout), (3, True, ""))
    refusals(url)

    browser = Browser(folder / "profile")

    def wait_for(what, expression):
        browser.wait(expression)
        print(f"{what}: yes")

    state = "document.documentElement.dataset.state"
    pictures = "Array.from(document.querySelectorAll('#pages img')).map(function (i) { return i.dataset.picture; }).join()"
    loaded = "Array.from(document.querySelectorAll('#pages img')).slice(0, 1).every(function (i) { return i.complete && i.naturalWidth > 0; })"
    marked = "Array.from(document.querySelectorAll('{} .picture.changed .name')).map(function (n) {{ return n.textContent; }}).join()"
    errors = "document.querySelector('#errors')"

    browser.open(url)
    wait_for("the pattern is built", f"{state} === 'fresh'")
    wait_for("a page is seen", loaded)
    same("its title", browser.value("document.querySelector('h1').textContent"), "Small Star")
    same("pages", browser.value("document.querySelectorAll('#pages img').length") > 4, True)
    same("figures", browser.value("document.querySelectorAll('#figures img').length") > 8, True)
    same("quantities", browser.value("document.querySelectorAll('#quantities table').length") > 3, True)
    same("nothing is marked", browser.value(marked.format("main")), "")
    same("no errors", browser.value(errors + ".hidden"), True)

    # A second page of the browser's, that is only read by and by, holds nobody up.
    with socket.create_connection(("127.0.0.1", urllib.parse.urlsplit(url).port), timeout=60) as slow:
        parts = urllib.parse.urlsplit(url)
        slow.sendall(f"GET {parts.path}events HTTP/1.1\r\nHost: {parts.netloc}\r\n\r\n".encode())

        welcome = Place(pattern / "prose" / "welcome.md")
        before = browser.value(pictures)
        welcome.change("This quilt finishes", "This small quilt finishes")
        wait_for("after a word is changed, another picture", f"{pictures} !== {before!r} && {state} === 'fresh'")
        wait_for("and it is seen", loaded)
        same("one page is marked", browser.value(marked.format("#pages")).count(","), 0)
        same("it is one", browser.value(marked.format("#pages")) != "", True)
        same("no figure is", browser.value(marked.format("#figures")), "")

    star = Place(pattern / "blocks" / "star.yaml")
    star.change("unit: 2 in", "unit: 3 in")
    wait_for("after a number is changed, its figures are marked",
             f"{marked.format('#figures')}.includes('block/star') && {state} === 'fresh'")
    same("and quantities", browser.value("document.querySelectorAll('#quantities tr.changed').length") > 0, True)

    before = browser.value(pictures)
    star.change("centre: {shape: square 2, fabric: dark}", "centre: {shape: square 2, fabric: darc}")
    wait_for("after a mistake, its error", f"!{errors}.hidden && {errors}.textContent.includes('blocks/star.yaml:7')")
    same("with the source line", browser.value(errors + ".querySelector('mark').textContent"), "darc")
    same("above the pictures", browser.value(
        f"{errors}.getBoundingClientRect().bottom <= document.querySelector('#pages').getBoundingClientRect().top + 1"), True)
    same("which are the last good ones", browser.value(pictures), before)
    wait_for("and still seen", loaded)
    star.change("fabric: darc}", "fabric: dark}")
    wait_for("mended, the error is gone", f"{errors}.hidden && {state} === 'fresh'")

    line = 1 + (pattern / "blocks" / "star.yaml").read_text(encoding="utf-8").split("goose:")[0].count("\n")
    goose = browser.value("""(function () {
      var all = Array.from(document.querySelectorAll('#figures .picture'));
      var at = all.findIndex(function (f) { return f.querySelector('.name').textContent === 'step/star/1'; });
      return '#figures > div > :nth-child(' + (at + 1) + ') .spot'; })()""")
    browser.click(goose)
    same("a figure that is clicked names its line",
         browser.value("document.querySelector('#source code').textContent"), f"blocks/star.yaml:{line}")
    browser.click("#pages .spot")
    same("so does one on a page", "yaml:" in browser.value("document.querySelector('#source').textContent"), True)

    bad = "<script>document.title = 'taken'</script><img src=x onerror=\"document.title = 'taken'\">"
    yaml = Place(pattern / "pattern.yaml")
    yaml.change("title: Small Star", "title: '" + bad.replace("'", "''") + "'")
    wait_for("a title of markup is text", f"document.querySelector('h1').textContent.startsWith('<script>') && {state} === 'fresh'")
    welcome.change("# Welcome", "# Welcome {{" + bad + "}}")
    wait_for("so are messages", f"!{errors}.hidden && {errors}.textContent.includes('<script>')")
    same("nothing of it ran", browser.value("document.title").endswith("taken"), False)
    same("and nothing of it is there", browser.value("document.querySelectorAll('main script, #errors img, #errors script, [onerror]').length"), 0)
    same("complaints", browser.complaints(), [])

    watch.send_signal(signal.SIGINT)
    same("Ctrl-C ends it", watch.wait(timeout=60), 0)
    wait_for("the page says so", "document.querySelector('#status').textContent.includes('does not answer')")
    browser.close()


if __name__ == "__main__":
    main(sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3]))
