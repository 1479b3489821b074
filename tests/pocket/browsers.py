"""Two browsers to try the page in, driven by what each distribution has: Chromium by Selenium, Firefox by its own protocol.

Each gives run(script, *values): the value of a function's body in the page; size(), picture(path), end().
"""

import base64
import json
import os
import pathlib
import shutil
import signal
import subprocess
import tempfile
import time


class Chromium:
    name = "Chromium"

    @staticmethod
    def is_here():
        try:
            import selenium  # noqa: F401
        except ImportError:
            return False
        return bool(shutil.which("chromium") and shutil.which("chromedriver"))

    def __init__(self, folder):
        from selenium import webdriver
        from selenium.webdriver.chrome.service import Service
        options = webdriver.ChromeOptions()
        options.binary_location = shutil.which("chromium")
        for each in ("--headless=new", "--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
                     "--ignore-gpu-blocklist", f"--user-data-dir={folder}"):
            options.add_argument(each)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
        self.driver = webdriver.Chrome(service=Service(shutil.which("chromedriver")), options=options)

    def open(self, path):
        self.driver.get(path.as_uri())

    def run(self, script, *values):
        return self.driver.execute_script(script, *values)

    def size(self, width, height):
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                                    {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600})

    def keys(self, text):
        """Typed by a keyboard, into what has it."""
        from selenium.webdriver.common.action_chains import ActionChains
        ActionChains(self.driver).send_keys(text).perform()

    def picture(self, path):
        self.driver.save_screenshot(str(path))

    def complaints(self):
        return [each["message"] for each in self.driver.get_log("browser") if each["level"] == "SEVERE"]

    def end(self):
        self.driver.quit()


class Firefox:
    """By WebDriver BiDi over a socket: Debian has no geckodriver."""
    name = "Firefox"

    @staticmethod
    def is_here():
        try:
            import websocket  # noqa: F401
        except ImportError:
            return False
        return bool(shutil.which("firefox-esr") and shutil.which("xvfb-run"))

    def __init__(self, folder):
        import websocket
        log = pathlib.Path(folder) / "firefox.log"
        # Software OpenGL, which it refuses by itself; it has that on a display only.
        pathlib.Path(folder, "user.js").write_text('user_pref("webgl.force-enabled", true);\n', encoding="utf-8")
        with open(log, "wb") as out:
            self.process = subprocess.Popen(["xvfb-run", "-a", "-s", "-screen 0 1400x1000x24", "firefox-esr", "--no-remote",
                                             "--profile", folder, "--remote-debugging-port", "0"], stdout=out, stderr=out,
                                            start_new_session=True)
        address = None
        for _ in range(600):
            told = [line for line in log.read_text(errors="replace").splitlines() if "WebDriver BiDi listening on" in line]
            if told:
                address = told[0].split()[-1]
                break
            time.sleep(0.1)
        self.socket = websocket.create_connection(address + "/session", timeout=120, suppress_origin=True)
        self.sent = 0
        self.ask("session.new", capabilities={})
        self.context = self.ask("browsingContext.getTree")["contexts"][0]["context"]

    def ask(self, method, **parameters):
        self.sent += 1
        self.socket.send(json.dumps({"id": self.sent, "method": method, "params": parameters}))
        while True:
            answer = json.loads(self.socket.recv())
            if answer.get("id") == self.sent:
                if "error" in answer:
                    raise RuntimeError(answer["error"] + ": " + answer.get("message", ""))
                return answer["result"]

    def open(self, path):
        self.ask("browsingContext.navigate", context=self.context, url=path.as_uri(), wait="complete")

    def run(self, script, *values):
        # The value goes through JSON, so that both browsers answer alike.
        body = f"JSON.stringify((function() {{ {script} }}).apply(null, {json.dumps(values)}))"
        result = self.ask("script.evaluate", expression=body, target={"context": self.context}, awaitPromise=True)
        if result["type"] == "exception":
            raise RuntimeError(result["exceptionDetails"]["text"])
        value = result["result"].get("value")
        return None if value is None else json.loads(value)

    def size(self, width, height):
        self.ask("browsingContext.setViewport", context=self.context, viewport={"width": width, "height": height})

    def keys(self, text):
        actions = [{"type": kind, "value": each} for each in text for kind in ("keyDown", "keyUp")]
        self.ask("input.performActions", context=self.context,
                 actions=[{"type": "key", "id": "keyboard", "actions": actions}])

    def picture(self, path):
        data = self.ask("browsingContext.captureScreenshot", context=self.context)["data"]
        pathlib.Path(path).write_bytes(base64.b64decode(data))

    def complaints(self):
        return []

    def end(self):
        try:
            self.ask("browser.close")
        except Exception:  # noqa: BLE001 — the browser may be gone before it answers
            pass
        try:
            self.process.wait(timeout=30)
        except subprocess.TimeoutExpired:
            os.killpg(self.process.pid, signal.SIGKILL)


def each_that_is_here():
    """The browsers of this machine, each with a folder of its own."""
    for kind in (Chromium, Firefox):
        if not kind.is_here():
            print(kind.name, "is not here")
            continue
        with tempfile.TemporaryDirectory(prefix="sillwright-browser-", ignore_cleanup_errors=True) as folder:
            browser = kind(folder)
            try:
                yield browser
            finally:
                browser.end()
