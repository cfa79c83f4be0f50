"""Headless Chromium for the tests of pages, what it is asked, and the rules of accessibility."""

import base64
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import urllib.error
import urllib.request

HERE = pathlib.Path(__file__).absolute().parent
PHONE, TABLET, DESK = 360, 800, 1280


class Checks:
    passed = failed = 0

    def equal(self, what, expected, got):
        if expected == got:
            self.passed += 1
            return
        self.failed += 1
        print(f"FAILED {what}\n  expected {expected!r}\n  got      {got!r}")

    def holds(self, what, condition, detail=""):
        self.equal(what, True, bool(condition) or detail)


class Browser:
    """Headless Chromium behind the WebDriver protocol."""

    def __init__(self):
        self.driver = subprocess.Popen(
            ["chromedriver", "--port=0"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
        )
        for line in self.driver.stdout:
            if started := re.search(r"started successfully on port (\d+)", line):
                break
        else:
            sys.exit("chromedriver did not start")
        self.root = f"http://127.0.0.1:{started[1]}/session"
        switches = ["--headless=new", "--disable-gpu", "--disable-dev-shm-usage"]
        if os.geteuid() == 0:
            switches.append("--no-sandbox")
        wanted = {
            "browserName": "chrome",
            "goog:chromeOptions": {"binary": shutil.which("chromium"), "args": switches},
            "goog:loggingPrefs": {"browser": "ALL", "performance": "ALL"},
        }
        try:
            session = self.ask("POST", "", {"capabilities": {"alwaysMatch": wanted}})
        except BaseException:
            self.driver.kill()
            raise
        self.root += "/" + session["sessionId"]

    def __enter__(self):
        return self

    def __exit__(self, *_):
        try:
            self.ask("DELETE", "")
        finally:
            self.driver.terminate()
            self.driver.wait()

    def ask(self, method, path, content=None):
        data = None if content is None else json.dumps(content).encode()
        request = urllib.request.Request(self.root + path, data, {"Content-Type": "application/json"}, method=method)
        direct = urllib.request.build_opener(urllib.request.ProxyHandler({}))
        try:
            with direct.open(request, timeout=60) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            raise RuntimeError(json.load(error)["value"]["message"]) from None

    def devtools(self, command, **parameters):
        return self.ask("POST", "/goog/cdp/execute", {"cmd": command, "params": parameters})

    def run(self, script, *arguments):
        return self.ask("POST", "/execute/sync", {"script": script, "args": arguments})

    def run_async(self, script, *arguments):
        return self.ask("POST", "/execute/async", {"script": script, "args": arguments})

    def log(self, kind):
        return self.ask("POST", "/se/log", {"type": kind})

    def open(self, page):
        self.log("browser"), self.log("performance")
        self.ask("POST", "/url", {"url": page.as_uri()})

    def console(self):
        return [entry["message"] for entry in self.log("browser")]

    def requests(self):
        """The addresses asked for since the page was opened, but for those that hold their own data."""
        events = [json.loads(entry["message"])["message"] for entry in self.log("performance")]
        asked = [event["params"]["request"]["url"] for event in events if event["method"] == "Network.requestWillBeSent"]
        return [address for address in asked if not address.startswith("data:")]

    def resize(self, width):
        self.devtools(
            "Emulation.setDeviceMetricsOverride", width=width, height=800, deviceScaleFactor=1, mobile=width == PHONE
        )

    def screenshot(self, file):
        shot = self.devtools("Page.captureScreenshot", format="png", captureBeyondViewport=True, optimizeForSpeed=True)
        file.write_bytes(base64.b64decode(shot["data"]))

    def print(self, file):
        # The paper offered is not A4: the page has to ask for it.
        printed = self.devtools("Page.printToPDF", preferCSSPageSize=True, paperWidth=8.5, paperHeight=11)
        file.write_bytes(base64.b64decode(printed["data"]))


def install_axe(folder):
    """The rules in the version that the lock file states; a second run finds them there."""
    rules = folder / "node_modules" / "axe-core" / "axe.min.js"
    lock = HERE / "package-lock.json"
    known = folder / lock.name
    if not rules.exists() or not known.exists() or known.read_bytes() != lock.read_bytes():
        for file in (HERE / "package.json", lock):
            shutil.copyfile(file, folder / file.name)
        subprocess.run(
            ["npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--silent"], cwd=folder, check=True, timeout=300
        )
    return rules.read_text(encoding="utf-8")


def violations(browser):
    """Every rule there is, also those that are off unless asked for; the rules' names and where they were broken."""
    return browser.run_async(
        "const done = arguments[arguments.length - 1];"
        "const rules = axe.getRules().map(rule => rule.ruleId);"
        "axe.run(document, {runOnly: {type: 'rule', values: rules}, resultTypes: ['violations']}).then("
        " found => done({broken: found.violations.map(one => [one.id, one.nodes.map(node => node.html.slice(0, 200))]),"
        "  held: found.passes.length}), error => done({broken: [String(error)], held: 0}));"
    )
