// A real workbench, headless: code-server behind Chromium, and the hands that use it.

import { execFile, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdir, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import { join } from "node:path";
import { promisify } from "node:util";
import { chromium } from "playwright-core";

const BOUND = 30_000;

/** What a person who opens the workbench for the first time would have to click away. */
const QUIET = {
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "workbench.enableExperiments": false,
  "security.workspace.trust.enabled": false,
  "telemetry.telemetryLevel": "off",
  "extensions.ignoreRecommendations": true,
  "files.autoSave": "off",
  "window.commandCenter": false,
  "editor.minimap.enabled": false,
  "chat.commandCenter.enabled": false,
};

/** Starts a workbench with the extension, a `home` of its own and the `folder` open. */
export async function openWorkbench({ codeServer, browser, extension, settings, home, folder, pictures }) {
  const user = join(home, "data");
  const options = ["--user-data-dir", user, "--extensions-dir", join(home, "extensions"), "--config", join(home, "config.yaml")];
  await mkdir(join(user, "User"), { recursive: true });
  await mkdir(join(user, "Machine"), { recursive: true });
  await mkdir(pictures, { recursive: true });
  await writeFile(join(home, "config.yaml"), "auth: none\n");
  await writeFile(join(user, "User", "settings.json"), JSON.stringify(QUIET));
  await writeFile(machineSettings(home), JSON.stringify(settings));
  await promisify(execFile)(codeServer, [...options, "--install-extension", extension]);

  const port = await freePort();
  const address = `http://127.0.0.1:${port}`;
  const serve = ["--auth", "none", "--bind-addr", `127.0.0.1:${port}`, "--disable-telemetry", "--disable-update-check"];
  const server = spawn(codeServer, [...options, ...serve], { stdio: "ignore", detached: true });
  const chrome = await chromium.launch({ executablePath: browser, args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"] });
  const page = await chrome.newPage({ viewport: { width: 1280, height: 800 } });
  page.setDefaultTimeout(BOUND);
  await until("the workbench answers", () => answers(address));
  await page.goto(`${address}/?folder=${encodeURIComponent(folder)}`);
  await page.locator(".monaco-workbench .part.editor").waitFor();

  return new Workbench(page, pictures, async () => {
    await chrome.close();
    const gone = once(server, "exit");
    process.kill(-server.pid, "SIGTERM");
    await gone;
  });
}

/** The settings of the machine that the extension runs on, where the path of a program belongs. */
export function machineSettings(home) {
  return join(home, "data", "Machine", "settings.json");
}

/** Waits until `look` gives something true, and gives that; the wait has a bound. */
export async function until(what, look) {
  const end = Date.now() + BOUND;
  for (;;) {
    const seen = await look();
    if (seen) {
      return seen;
    }
    if (Date.now() > end) {
      throw new Error(`waited in vain: ${what}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

async function answers(address) {
  try {
    return (await fetch(`${address}/healthz`)).ok;
  } catch {
    return false;
  }
}

async function freePort() {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address();
  server.close();
  await once(server, "close");
  return port;
}

/** The workbench as a person at the keyboard has it. */
class Workbench {
  constructor(page, pictures, close) {
    this.page = page;
    this.pictures = pictures;
    this.close = close;
    this.shots = 0;
  }

  /** Opens a file by its name. */
  async open(name) {
    await this.page.keyboard.press("Control+P");
    await this.#choose(name, name);
    await this.#chosen();
    await this.page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
    await this.page.locator(".editor-instance .view-line").first().waitFor();
  }

  /** Runs a command by its title, and takes the answers to what it asks. */
  async command(title, ...answers) {
    await this.page.keyboard.press("F1");
    await this.#choose(`>${title}`, title);
    for (const answer of answers) {
      await this.#choose(answer, answer);
    }
    await this.#chosen();
  }

  /** Puts the cursor at a line and a column, both counted from 1. */
  async goTo(line, column) {
    await this.page.keyboard.press("Control+G");
    await this.#type(`:${line}:${column}`);
    await this.page.keyboard.press("Enter");
    await this.page.locator(".quick-input-widget").waitFor({ state: "hidden" });
    await until("the cursor is there", async () =>
      (await this.status("status.editor.selection")).startsWith(`Ln ${line}, Col ${column}`),
    );
  }

  /** Saves every file. */
  async saveAll() {
    await this.command("File: Save All");
    await until("all is saved", async () => (await this.page.locator(".tab.dirty").count()) === 0);
  }

  /** The text of an item of the status bar. */
  async status(id) {
    const item = this.page.locator(`[id="${id}"]`);
    return (await item.count()) === 0 ? "" : ((await item.first().textContent()) ?? "").trim();
  }

  /** The texts of everything that matches, without the blanks that the workbench widens. */
  async texts(selector) {
    const texts = await this.page.locator(selector).allTextContents();
    return texts.map((text) => text.replaceAll("\u00a0", " ").trim());
  }

  /** The names that assistive technology reads of everything that matches. */
  async labels(selector) {
    return this.page.locator(selector).evaluateAll((found) => found.map((one) => one.getAttribute("aria-label") ?? ""));
  }

  /** Takes a picture. */
  async picture(name) {
    this.shots += 1;
    await this.page.waitForTimeout(400);
    await this.page.screenshot({ path: join(this.pictures, `${String(this.shots).padStart(2, "0")}-${name}.png`) });
  }

  async #choose(typed, label) {
    await this.#type(typed);
    const row = this.page.locator(".quick-input-list .monaco-list-row", { hasText: label }).first();
    await row.waitFor();
    await row.click();
  }

  async #chosen() {
    await this.page.locator(".quick-input-widget").waitFor({ state: "hidden" });
  }

  async #type(text) {
    const input = this.page.locator(".quick-input-widget input.input");
    await input.waitFor();
    await input.fill(text);
  }
}
