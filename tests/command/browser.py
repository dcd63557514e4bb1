#!/usr/bin/env python3
"""Uses a booklet's page as a reader does, in a browser without a window.

    browser.py PAGE.html FOLDER    FOLDER is for the browser's own files and the printed page

Speaks the DevTools protocol over pipes. Prints each thing looked at; fails at the first that is
not as it should be.
"""

import base64
import json
import os
import pathlib
import subprocess
import sys

DENIED = """Object.defineProperty(window, 'localStorage', {
  get: function () { throw new DOMException('denied', 'SecurityError'); } });"""


class Browser:
    """Chromium, and one page in it."""

    def __init__(self, profile):
        to_browser, self.write_end = os.pipe()
        self.read_end, from_browser = os.pipe()
        # The browser reads from descriptor 3 and writes to 4.
        self.process = subprocess.Popen(
            ["sh", "-c", 'exec chromium "$@" 3<&%d 4>&%d' % (to_browser, from_browser), "chromium",
             "--headless", "--no-sandbox", "--disable-gpu", "--remote-debugging-pipe",
             "--disable-component-update", "--no-first-run", f"--user-data-dir={profile}",
             "--window-size=820,1180", "about:blank"],
            pass_fds=(to_browser, from_browser), stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(to_browser)
        os.close(from_browser)
        self.pending, self.number, self.session, self.events = b"", 0, None, []
        targets = self.ask("Target.getTargets")["targetInfos"]
        page = next(t for t in targets if t["type"] == "page")["targetId"]
        self.session = self.ask("Target.attachToTarget", targetId=page, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Log", "DOM"):
            self.ask(domain + ".enable")

    def receive(self):
        while b"\0" not in self.pending:
            some = os.read(self.read_end, 1 << 16)
            if not some:
                sys.exit("the browser is gone")
            self.pending += some
        message, self.pending = self.pending.split(b"\0", 1)
        return json.loads(message)

    def ask(self, method, **params):
        self.number += 1
        message = {"id": self.number, "method": method, "params": params}
        if self.session:
            message["sessionId"] = self.session
        os.write(self.write_end, json.dumps(message).encode() + b"\0")
        while True:
            answer = self.receive()
            if answer.get("id") != self.number:
                self.events.append(answer)
            elif "error" in answer:
                sys.exit(f"{method}: {answer['error']['message']}")
            else:
                return answer["result"]

    def open(self, url):
        """Loads the page and waits until it is there; forgets what happened before."""
        self.events = []
        self.ask("Page.navigate", url="about:blank")
        self.ask("Page.navigate", url=url)
        while self.value("location.href + document.readyState") != url + "complete":
            self.events.append(self.receive())

    def value(self, expression):
        result = self.ask("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in result:
            sys.exit(f"{expression}: {result['exceptionDetails']}")
        return result["result"].get("value")

    def wait(self, expression):
        """Until the expression is true; asked again after each thing that the page shows."""
        while not self.value(f"""new Promise(function (done) {{
              requestAnimationFrame(function () {{ done(Boolean({expression})); }}); }})"""):
            pass

    def click(self, selector):
        """With the mouse, in the middle of what the selector finds first in the shown size."""
        x, y = self.value(f"""(function () {{
          var it = document.querySelector({json.dumps(selector)});
          it.scrollIntoView({{block: 'center', behavior: 'instant'}});
          var box = it.getBoundingClientRect();
          return [box.left + box.width / 2, box.top + box.height / 2]; }})()""")
        for kind in ("mousePressed", "mouseReleased"):
            self.ask("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)

    def press(self, key, code):
        for kind in ("keyDown", "keyUp"):
            self.ask("Input.dispatchKeyEvent", type=kind, key=key, code=code,
                     text=key if len(key) == 1 and kind == "keyDown" else "")

    def complaints(self):
        """Uncaught errors, and what the page's policy stopped."""
        return [e for e in self.events
                if e.get("method") == "Runtime.exceptionThrown"
                or e.get("method") == "Log.entryAdded" and e["params"]["entry"]["level"] == "error"]

    def close(self):
        self.session = None
        self.number += 1
        os.write(self.write_end, json.dumps({"id": self.number, "method": "Browser.close"}).encode() + b"\0")
        self.process.wait(timeout=30)


def same(what, found, wanted):
    print(f"{what}: {found}")
    if found != wanted:
        sys.exit(f"{what}: found {found!r}, wanted {wanted!r}")


def main(page, folder):
    url = pathlib.Path(page).resolve().as_uri()
    browser = Browser(folder / "profile")
    shown = "Array.from(document.querySelectorAll('article.size')).filter(function (a) {" \
            " return a.offsetHeight > 0; }).map(function (a) { return a.dataset.size; }).join()"
    done = "document.querySelector('.done').textContent"
    first_box = "article.shown input[data-step]"

    browser.open(url)
    sizes = browser.value("Array.from(document.querySelectorAll('.sizes a')).map("
                          "function (a) { return a.dataset.size; })")
    asked = [e["params"]["request"]["url"] for e in browser.events
             if e.get("method") == "Network.requestWillBeSent"]
    same("what is fetched besides the page", [u for u in asked if u not in (url, "about:blank")], [])
    same("complaints", browser.complaints(), [])
    same("sizes to choose from", len(sizes) > 1, True)
    same("the size shown first", browser.value(shown), sizes[0])
    steps = browser.value(f"document.querySelectorAll({json.dumps(first_box)}).length")
    same("there are steps", steps > 3, True)
    same("steps done", browser.value(done), f"0 of {steps} steps done")

    browser.click(first_box)
    same("after a click on a step", browser.value(done), f"1 of {steps} steps done")
    browser.value(f"document.querySelectorAll({json.dumps(first_box)})[1].focus()")
    browser.press(" ", "Space")
    same("after the space bar on the next", browser.value(done), f"2 of {steps} steps done")
    browser.open(url)
    same("after loading again", browser.value(done), f"2 of {steps} steps done")
    browser.click("button.next")
    same("the next step has the focus", browser.value(
        f"document.activeElement === document.querySelectorAll({json.dumps(first_box)})[2]"), True)

    browser.click(f".sizes a[data-size='{sizes[1]}']")
    same("after choosing another size", browser.value(shown), sizes[1])
    same("its steps are its own", browser.value(done)[:5], "0 of ")
    browser.open(url)
    same("remembered after loading again", browser.value(shown), sizes[1])
    browser.value(f"location.hash = '#{sizes[0]}.requirements'")
    browser.value("new Promise(requestAnimationFrame)")
    same("an address within the first size shows it", browser.value(shown), sizes[0])

    denied = browser.ask("Page.addScriptToEvaluateOnNewDocument", source=DENIED)["identifier"]
    browser.open(url)
    same("without storage nothing is remembered", browser.value(done), f"0 of {steps} steps done")
    browser.click(first_box)
    same("but steps are ticked", browser.value(done), f"1 of {steps} steps done")
    same("and nobody complains", browser.complaints(), [])
    browser.ask("Page.removeScriptToEvaluateOnNewDocument", identifier=denied)

    printed = base64.b64decode(browser.ask("Page.printToPDF", printBackground=True)["data"])
    (folder / "printed.pdf").write_bytes(printed)
    same("it prints", printed[:5], b"%PDF-")

    browser.ask("Emulation.setScriptExecutionDisabled", value=True)
    browser.open(url)
    root = browser.ask("DOM.getDocument")["root"]["nodeId"]
    articles = browser.ask("DOM.querySelectorAll", nodeId=root, selector="article.size")["nodeIds"]
    heights = [browser.ask("DOM.getBoxModel", nodeId=a)["model"]["height"] for a in articles]
    same("without script every size is seen", [h > 100 for h in heights], [True] * len(sizes))
    browser.close()


if __name__ == "__main__":
    main(sys.argv[1], pathlib.Path(sys.argv[2]))
